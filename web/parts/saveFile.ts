/** Gives the person a text as a file: through the browser's download. */
export function saveText(text: string, name: string, type = 'text/plain;charset=utf-8'): void {
  saveBlob(new Blob([text], { type }), name);
}

export function saveBlob(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = safeName(name);
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** A name that every file system takes: no slashes, no control characters, no leading dots. */
export function safeName(name: string): string {
  const safe = name
    .normalize('NFC')
    .replace(/[\p{Cc}<>:"/\\|?*]/gu, ' ')
    .replace(/\s+/g, ' ')
    .replace(/^[. ]+|[. ]+$/g, '')
    .slice(0, 120);
  return safe === '' ? 'aftrun' : safe;
}
