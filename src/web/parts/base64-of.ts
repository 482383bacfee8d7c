/** So much is made text at once. */
const AT_ONCE = 0x8000;

/** What a Blob holds, as text. Throws where the phone has lost it. */
export async function base64Of(blob: Blob): Promise<string> {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let text = '';
  for (let at = 0; at < bytes.length; at += AT_ONCE)
    text += String.fromCharCode(...bytes.subarray(at, at + AT_ONCE));
  return btoa(text);
}

export function bytesOfBase64(text: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
}
