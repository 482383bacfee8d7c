/** A task that never ends by itself. */
export default function endless(): never {
  for (;;);
}
