// What a trace keeps of a meter's readings: five minutes, and of each half second the lowest and the highest. A trace has fewer
// pixels than that, and drawing it costs the same however fast the meter reads.

export const kept_ms = 300000;
const slot_ms = 500;

const slotOf = ([time]) => Math.floor(time / slot_ms);

/** The two of them that tell most, in their order. */
function outermost(three) {
  const low = three.reduce((a, b) => (b[1] < a[1] ? b : a));
  const high = three.reduce((a, b) => (b[1] > a[1] ? b : a));
  return three.filter((each) => each === low || each === high);
}

/** Adds [Date, value] to such points, oldest first; null is a gap. */
export function keepPoint(points, point) {
  const last = points.slice(-2);
  const full = last.length === 2 && [...last, point].every((each) => each[1] !== null && slotOf(each) === slotOf(point));
  if (full) points.splice(-2, 2, ...outermost([...last, point]));
  else if (point[1] !== null || points.at(-1)?.[1] !== null) points.push(point);
  while (points.length > 0 && points[0][0] < point[0] - kept_ms) points.shift();
}
