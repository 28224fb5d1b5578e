import { asciiOf } from './bytes.ts';

/** In words, what a file is that is no picture of a kind read here, from its first bytes. */
export function foreignFile(bytes: Uint8Array): string {
  if (bytes.length === 0) return 'an empty file';
  const text = asciiOf(bytes, 0, 512);
  if (text.slice(4, 8) === 'ftyp') {
    const brand = text.slice(8, 12);
    if (/^avi[fs]$/.test(brand)) return 'a picture in AVIF';
    if (/^(hei[cxms]|hev[cmsx]|mif1|msf1)$/.test(brand)) return 'a picture in HEIC';
    return 'a film';
  }
  if (/^(II\*\0|MM\0\*)/.test(text)) return 'a picture in TIFF or a camera’s raw picture';
  if (text.startsWith('BM')) return 'a picture in BMP';
  if (text.startsWith('%PDF-')) return 'a PDF';
  if (/^\s*(<\?xml[^>]*>\s*)?(<!--.*?-->\s*)?<svg[\s>]/s.test(text)) return 'a drawing in SVG';
  // No control characters but tab and line ends: text, in whatever encoding.
  if (!/[^\t\n\r\x20-\x7e\x80-\xff]/.test(text)) return 'text';
  return 'no picture of a kind that is known here';
}
