/** Ctrl-C or a stop from outside ends it in order; a second one ends it at once. */
export function stopOnSignal(stop: () => Promise<void>, log: (line: string) => void): void {
  let stopping = false;
  const onSignal = () => {
    if (stopping) process.exit(1);
    stopping = true;
    log('Stopping…');
    stop().then(
      () => process.exit(0),
      (error: unknown) => {
        process.stderr.write(`${error instanceof Error ? error.stack : String(error)}\n`, () =>
          process.exit(1),
        );
      },
    );
  };
  process.on('SIGINT', onSignal);
  process.on('SIGTERM', onSignal);
}
