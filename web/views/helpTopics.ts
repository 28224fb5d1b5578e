/** What help there is, and what its button says. */
export const HELP = {
  hook: 'Hook',
  rocker: 'Rocker',
  resting: 'Resting',
  blocks: 'On blocks',
  below: 'Seen from below',
  check: 'Straightedge check',
} as const;
export type HelpTopic = keyof typeof HELP;
