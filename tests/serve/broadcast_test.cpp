#include "serve/broadcast.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;

TEST(Broadcast, HandsEveryEventToEveryListenerInOrder) {
    Broadcast broadcast;
    const auto one = broadcast.subscribe();
    const auto other = broadcast.subscribe();
    broadcast.publish("meter", "{\"n\":1}");
    broadcast.publish("meter", "{\"n\":2}");
    for (const auto& listener : {one, other}) {
        EXPECT_EQ(listener->next(milliseconds(0)), "event: meter\ndata: {\"n\":1}\n\n");
        EXPECT_EQ(listener->next(milliseconds(0)), "event: meter\ndata: {\"n\":2}\n\n");
        EXPECT_EQ(listener->next(milliseconds(0)), std::nullopt);
        EXPECT_FALSE(listener->over());
    }
}

TEST(Broadcast, DropsAListenerThatLetsTooManyWait) {
    Broadcast broadcast;
    const auto slow = broadcast.subscribe();
    const auto quick = broadcast.subscribe();
    for (int i = 0; i < 257; ++i) {
        broadcast.publish("meter", "{}");
        EXPECT_TRUE(quick->next(milliseconds(0)));
    }
    EXPECT_TRUE(slow->over());
    EXPECT_EQ(slow->next(milliseconds(0)), std::nullopt);
    EXPECT_FALSE(quick->over());
    EXPECT_EQ(broadcast.listeners(), 1U);
}

TEST(Broadcast, ServesSoManyAndNoMore) {
    Broadcast broadcast;
    std::vector<std::shared_ptr<Subscription>> all;
    for (int i = 0; i < 256; ++i)
        all.push_back(broadcast.subscribe());
    EXPECT_TRUE(all.back());
    EXPECT_FALSE(broadcast.subscribe());
    all.pop_back();
    EXPECT_TRUE(broadcast.subscribe());
}

TEST(Broadcast, EndsThoseThatListenAndThoseToCome) {
    Broadcast broadcast;
    const auto listener = broadcast.subscribe();
    broadcast.end();
    EXPECT_TRUE(listener->over());
    EXPECT_FALSE(broadcast.subscribe());
}

} // namespace
} // namespace coilward
