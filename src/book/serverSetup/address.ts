export type ServerRead =
  | { readonly ok: true; readonly server: string }
  | { readonly ok: false; readonly expected: string };

/** The address of a server as a person gives it, without a slash at its end. Without a scheme it is https. Names and
 *  passwords in an address end up in histories and logs, so they are refused. */
export function readServer(text: string): ServerRead {
  const given = text.trim();
  const full = /^[a-z][a-z0-9+.-]*:\/\//i.test(given) ? given : `https://${given}`;
  const refusal = (expected: string): ServerRead => ({ ok: false, expected });
  const form = 'an address such as https://server.example:6984';
  const parts = /^(https?):\/\/([^/?#\s]+)((?:\/[^?#\s]*)?)$/i.exec(full);
  if (given === '' || parts === null) return refusal(form);
  const [, scheme, host, path] = parts;
  if (host.includes('@')) return refusal('an address without a name or password in it');
  if (!/^(?:[a-z0-9.-]+|\[[0-9a-f:]+\])(?::\d{1,5})?$/i.test(host)) return refusal(form);
  return {
    ok: true,
    server: `${scheme.toLowerCase()}://${host.toLowerCase()}${path.replace(/\/+$/, '')}`,
  };
}

/** Whether a text can name a database: lower-case letters, digits and `_$()+-/`, beginning with a letter.
 *  Source: CouchDB's documentation of `PUT /{db}`; from memory. */
export function isDatabaseName(text: string): boolean {
  return /^[a-z][a-z0-9_$()+/-]{0,200}$/.test(text);
}

/** The address of a database on a server. */
export function databaseAddress(server: string, database: string): string {
  return `${server}/${encodeURIComponent(database)}`;
}
