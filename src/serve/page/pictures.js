// Pictures of a pickup. They are made smaller here, which also leaves out what a camera wrote into them: where and by what.
import { element, local } from "./dom.js";
import { field, form, queryOf, trouble } from "./fields.js";
import { sendBytes } from "./server.js";

const longest_side = 2000; // pixels: a scratch on a bobbin is still seen, and a picture takes some 400 kB

async function smaller(file) {
  const picture = await createImageBitmap(file).catch(() => { throw new Error("This file is no picture that can be read; choose another"); });
  const scale = Math.min(1, longest_side / Math.max(picture.width, picture.height));
  const canvas = element("canvas", {});
  canvas.width = Math.round(picture.width * scale);
  canvas.height = Math.round(picture.height * scale);
  canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
  return new Promise((take) => canvas.toBlob(take, "image/jpeg", 0.85));
}

function shown(pickup, attachment) {
  const address = `/api/pickups/${pickup.number}/attachments/${attachment.sha256}`;
  const words = attachment.note || attachment.name;
  const picture = attachment.media_type.startsWith("image/")
    ? element("img", { src: address, alt: words, loading: "lazy" }) : attachment.name;
  return element("figure", {}, element("a", { href: address, target: "_blank", rel: "noopener" }, picture),
    element("figcaption", {}, `${words}, ${local(attachment.at)}`));
}

export function picturesShown(pickup, refresh) {
  const says = trouble();
  const attachments = pickup.attachments ?? [];
  return element("section", { class: attachments.length > 0 ? null : "screen" }, element("h2", {}, "Pictures"),
    element("div", { class: "gallery" }, attachments.map((attachment) => shown(pickup, attachment))),
    element("details", { class: "screen" }, element("summary", {}, "Keep a picture"),
      form([
        field("picture", "Picture", { type: "file", accept: "image/jpeg,image/png,image/webp", required: true }),
        field("note", "What it shows"),
        element("button", { class: "plain" }, "Keep the picture"),
      ], says, async ({ picture, note }, made) => {
        const name = picture.name.replace(/\.[^.]*$/, "");
        await sendBytes(`/api/pickups/${pickup.number}/pictures?${queryOf({ name, note })}`, await smaller(picture));
        made.reset();
        await refresh();
      }), says));
}
