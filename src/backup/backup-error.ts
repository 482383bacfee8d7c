/** A file that cannot be restored, or a place that it cannot be restored to; the message says why. */
export class BackupError extends Error {}
