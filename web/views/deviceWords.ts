/** What people call a device. Its key, which stands behind its name in every entry, is cut to four characters: they
 *  tell two devices of one name apart. */
export function deviceWords(device: string): string {
  const match = /^(?:(.*) )?([0-9a-hjkmnp-tv-z]{12})$/.exec(device);
  if (match === null) return device;
  const [, name = '', key = ''] = match;
  const short = key.slice(0, 4);
  if (name === '') return `Device ${short}`;
  return name.includes(short) ? name : `${name} (${short})`;
}
