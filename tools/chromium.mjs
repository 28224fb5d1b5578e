// Where a Chromium for the browser tests may stand. Node built-ins only: runs before anything is installed.
import { accessSync, constants } from 'node:fs';

const usualPlaces = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Chromium\\Application\\chrome.exe',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** Path of a Chromium that can be run: CHROMIUM_PATH alone where it is set, else the first usual place. */
export function chromiumPath(environment = process.env, places = usualPlaces) {
  const stated = environment.CHROMIUM_PATH;
  return (stated ? [stated] : places).find(canRun);
}

function canRun(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
