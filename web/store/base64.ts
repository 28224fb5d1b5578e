/** Bytes in base64 with padding (RFC 4648, section 4). */
export function base64Of(bytes: Uint8Array): string {
  let text = '';
  // Not all at once: a call takes only so many arguments.
  for (let from = 0; from < bytes.length; from += 0x8000) {
    text += String.fromCharCode(...bytes.subarray(from, from + 0x8000));
  }
  return btoa(text);
}
