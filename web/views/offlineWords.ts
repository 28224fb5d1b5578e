/** Whether the app opens without a network, and what is missing where it does not. */
export const OFFLINE_WORDS = {
  asking: 'Asking the browser…',
  storing: 'The app is being stored on this device; keep it open for a moment.',
  ready:
    'The whole app is stored on this device: it opens and works without a network. Put it on the home screen from the browser’s menu.',
  insecure:
    'This address begins with http://, where browsers store no app: without a network it will not open here. Serve it over https.',
  unsupported:
    'This browser stores no app, as in a private window or with storage switched off: without a network it will not open here.',
  failed:
    'The app could not be stored on this device. It is tried again at the next start; until then it does not open without a network.',
} as const;
