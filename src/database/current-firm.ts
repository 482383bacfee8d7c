/** Whose request this is. Until access control finds it from a session: the one firm of the installation. */
export class CurrentFirm {
  constructor(readonly id: string) {}
}
