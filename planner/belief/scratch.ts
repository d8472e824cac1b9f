/** Working memory of the passes: making thousands of small arrays would cost more than filling them. One pass uses it
 * at a time and what is in it means nothing afterwards. */
const pieces: Float64Array[] = [];

/** A piece of working memory by number, all zero, at least `length` long. */
export function scratch(piece: number, length: number): Float64Array {
  const ready = pieces[piece];
  if (ready !== undefined && ready.length >= length) {
    ready.fill(0, 0, length);
    return ready;
  }
  const made = new Float64Array(length);
  pieces[piece] = made;
  return made;
}
