/** E-mail addresses are one and the same however they are capitalised. */
export function normaliseEmail(email: string): string {
  return email.trim().normalize('NFC').toLowerCase();
}

/** Words that others know about a person: the parts of name and e-mail. */
export function personalWords(name: string, email: string): string[] {
  return `${name} ${email}`.split(/[^\p{L}\p{N}]+/u).filter((word) => word !== '');
}
