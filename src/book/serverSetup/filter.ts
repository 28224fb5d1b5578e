/** Which documents one pull asks a server for, as the text of a function (see validation.ts): the entries of the hull
 *  that the query names, and of those the ones with files or, with `files=no`, the ones without, so that readings do
 *  not wait for photos. What has no entry's id is never sent. */
export const FILTER = `function (doc, req) {
  if (!/^[0-9a-hjkmnp-tv-z]{12}:(0|[0-9a-hjkmnp-tv-z]{12}):[0-9a-hjkmnp-tv-z]{26}$/.test(doc._id)) return false;
  if (doc._id.slice(0, 12) !== req.query.hull) return false;
  var has = doc._attachments ? Object.keys(doc._attachments).length > 0 : false;
  return has === (req.query.files === 'yes');
}`;
