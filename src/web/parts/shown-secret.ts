/** What stands behind the # of the address, or undefined. */
export function readShownSecret(): string | undefined {
  return location.hash.length > 1 ? location.hash.slice(1) : undefined;
}

/** Takes the secret out of the address bar and out of this tab's history. */
export function hideSecret(): void {
  history.replaceState(null, '', location.pathname);
}

/** Another link opened in this tab changes only what stands behind the #, and loads nothing anew by itself. */
export function beginAnewOnAnotherLink(): void {
  window.addEventListener('hashchange', () => {
    if (readShownSecret() !== undefined) location.reload();
  });
}
