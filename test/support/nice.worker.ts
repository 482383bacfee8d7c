import { getPriority } from 'node:os';

/** A task that says by how much its thread gives way. */
export default function nice(): { answer: number } {
  return { answer: getPriority() };
}
