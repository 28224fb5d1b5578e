/** What a server is told to check of every document before it takes it, as the text of a function: servers of the
 *  CouchDB protocol run design documents in an engine of their own, which knows ECMAScript 5 and none of our modules.
 *  It lets entries be added and never changed or deleted, by anybody. Only the envelope is looked at: what a body says
 *  is read by the devices, which set aside what they cannot read. The one thing that may come to an entry afterwards
 *  is a file of it, since an entry file may bring the entry first. A push that this refuses is not tried again by
 *  replication. Tested as a function in test/book/serverSetup, and on a server in test/server. */
export const VALIDATION = `function (newDoc, oldDoc, userCtx, secObj) {
  function refuse(why) {
    throw { forbidden: why };
  }
  function isText(value, limit) {
    return typeof value === 'string' && value.length > 0 && value.length <= limit;
  }
  function same(a, b) {
    if (a === b) return true;
    if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
    if (Array.isArray(a) !== Array.isArray(b)) return false;
    var keys = Object.keys(a);
    if (keys.length !== Object.keys(b).length) return false;
    for (var i = 0; i < keys.length; i += 1) {
      if (!Object.prototype.hasOwnProperty.call(b, keys[i])) return false;
      if (!same(a[keys[i]], b[keys[i]])) return false;
    }
    return true;
  }
  function stated(doc) {
    var own = {};
    Object.keys(doc).forEach(function (key) {
      if (key.charAt(0) !== '_') own[key] = doc[key];
    });
    return own;
  }
  if (newDoc._deleted) refuse('an entry is never deleted');
  if (!/^[0-9a-hjkmnp-tv-z]{12}:(0|[0-9a-hjkmnp-tv-z]{12}):[0-9a-hjkmnp-tv-z]{26}$/.test(newDoc._id)) {
    refuse('the id is not that of an entry');
  }
  if (typeof newDoc.v !== 'number') refuse('v: a number is expected');
  if (!isText(newDoc.kind, 64)) refuse('kind: a text of 1 to 64 characters is expected');
  if (!isText(newDoc.by, 200)) refuse('by: a text of 1 to 200 characters is expected');
  if (!isText(newDoc.at, 64) || !/^\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\d(\\.\\d{1,9})?(Z|[+-]\\d\\d:\\d\\d)$/.test(newDoc.at)) {
    refuse('at: a time in ISO 8601 with a zone is expected');
  }
  if (oldDoc && !oldDoc._deleted) {
    if (!same(stated(newDoc), stated(oldDoc))) refuse('an entry is never changed');
    var files = oldDoc._attachments || {};
    Object.keys(files).forEach(function (name) {
      var now = (newDoc._attachments || {})[name];
      if (!now) refuse('a file of an entry is never removed');
      if (now.digest && files[name].digest && now.digest !== files[name].digest) {
        refuse('a file of an entry is never changed');
      }
    });
  }
}`;
