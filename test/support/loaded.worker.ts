const { stack } = new Error();

/** A task that says what loaded it. */
export default function loaded(): { answer: string | undefined } {
  return { answer: stack };
}
