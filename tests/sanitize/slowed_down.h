#pragma once

namespace coilward::testing {

/// Whether a sanitizer slows this program down, several times over: how long something takes says little
/// then.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
inline constexpr bool slowed_down = true;
#elif defined(__has_feature)
inline constexpr bool slowed_down = __has_feature(address_sanitizer) || __has_feature(thread_sanitizer);
#else
inline constexpr bool slowed_down = false;
#endif

} // namespace coilward::testing
