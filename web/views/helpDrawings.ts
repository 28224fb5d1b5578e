import type { HelpTopic } from './helpTopics.ts';

/** The check of a straightedge has drawings of its own, of each way to do it. */
type Drawn = Exclude<HelpTopic, 'check'>;

/** A drawing of our own that explains one word. In user units of `width` by `height`. */
export interface HelpDrawing {
  /** What the picture is of, spoken in its place. */
  readonly name: string;
  /** What is to be seen in it and what it means. */
  readonly summary: string;
  readonly width: number;
  readonly height: number;
  readonly strokes: readonly {
    /** `surface`: the boat's bottom; `tool`: straightedge and blocks; `gap`: what is read; `thin`: the rest. */
    readonly as: 'surface' | 'tool' | 'gap' | 'thin';
    readonly path: string;
  }[];
  readonly labels: readonly {
    readonly x: number;
    readonly y: number;
    readonly text: string;
    readonly anchor: 'start' | 'middle' | 'end';
  }[];
}

/** A double-headed arrow down the page, from the bottom of the boat to the straightedge. */
const gap = (x: number, from: number, to: number): HelpDrawing['strokes'][number] => ({
  as: 'gap',
  path: `M${x} ${from}V${to}M${x - 3} ${from + 5}L${x} ${from}L${x + 3} ${from + 5}M${x - 3} ${to - 5}L${x} ${to}L${x + 3} ${to - 5}`,
});
const box = (x: number, y: number, width: number, height: number): string =>
  `M${x} ${y}h${width}v${height}h${-width}Z`;

/** As every profile here: transom left, bow right, water side down. */
const ends: HelpDrawing['labels'] = [
  { x: 36, y: 16, text: 'TRANSOM', anchor: 'start' },
  { x: 306, y: 16, text: 'BOW →', anchor: 'end' },
  { x: 160, y: 146, text: 'towards the water', anchor: 'middle' },
];
const transom = (y: number): HelpDrawing['strokes'][number] => ({
  as: 'thin',
  path: `M30 ${y}V8M160 126V134M156 130L160 134L164 130`,
});

/** Wavy, so that a resting straightedge touches at three places. */
const UNEVEN = 'M30 60C60 60 60 40 90 40S120 60 150 60S190 46 228 46S276 60 306 60';

const DRAWINGS: Readonly<Record<Drawn, HelpDrawing>> = {
  hook: {
    name: 'A hook: the bottom in profile over a straightedge.',
    summary:
      'Hook: the bottom lies hollow. The straightedge touches at both ends of the hollow, and a gap shows between them. At the transom it acts like a fixed tab: it lifts the stern, bow down.',
    width: 320,
    height: 152,
    strokes: [
      transom(70),
      { as: 'surface', path: 'M30 70Q105 28 180 70H306' },
      { as: 'tool', path: box(24, 70, 282, 10) },
      gap(105, 50, 69),
    ],
    labels: [
      ...ends,
      { x: 105, y: 42, text: 'hollow', anchor: 'middle' },
      { x: 112, y: 65, text: 'gap', anchor: 'start' },
      { x: 306, y: 98, text: 'straightedge', anchor: 'end' },
    ],
  },
  rocker: {
    name: 'A rocker: the bottom in profile over a straightedge.',
    summary:
      'Rocker: the bottom stands proud. The straightedge rocks on the hump, and gaps show towards its ends. Bow up; it invites porpoising.',
    width: 320,
    height: 152,
    strokes: [
      transom(52),
      { as: 'surface', path: 'M30 52H70Q130 104 190 52H306' },
      { as: 'tool', path: box(24, 78, 282, 10) },
      gap(44, 53, 77),
      gap(250, 53, 77),
    ],
    labels: [
      ...ends,
      { x: 130, y: 62, text: 'hump', anchor: 'middle' },
      { x: 51, y: 69, text: 'gap', anchor: 'start' },
      { x: 257, y: 69, text: 'gap', anchor: 'start' },
      { x: 306, y: 106, text: 'straightedge', anchor: 'end' },
    ],
  },
  resting: {
    name: 'A straightedge that rests on the bottom, in profile.',
    summary:
      'Resting: the straightedge lies on the bottom and touches where that stands proudest. The gap is read at each station; 0 where it touches. Press at the contacts only: pressing between them hides a hook.',
    width: 320,
    height: 152,
    strokes: [
      transom(60),
      { as: 'surface', path: UNEVEN },
      { as: 'tool', path: box(24, 60, 282, 10) },
      gap(90, 41, 59),
      { as: 'gap', path: 'M150 84V72M146 77L150 72L154 77' },
    ],
    labels: [
      ...ends,
      { x: 90, y: 34, text: 'gap', anchor: 'middle' },
      { x: 150, y: 98, text: 'touches: 0', anchor: 'middle' },
      { x: 306, y: 88, text: 'straightedge', anchor: 'end' },
    ],
  },
  blocks: {
    name: 'A straightedge on two equal blocks under the bottom, in profile.',
    summary:
      'On two equal blocks: the straightedge stands off the bottom by their height, so that a hump between them cannot rock it. Read the whole gap; the height of the blocks is taken off.',
    width: 320,
    height: 152,
    strokes: [
      transom(60),
      { as: 'surface', path: UNEVEN },
      { as: 'tool', path: `${box(24, 86, 282, 10)}${box(30, 60, 14, 26)}${box(292, 60, 14, 26)}` },
      gap(90, 41, 85),
      gap(150, 61, 85),
    ],
    labels: [
      ...ends,
      { x: 50, y: 78, text: 'block', anchor: 'start' },
      { x: 286, y: 78, text: 'block', anchor: 'end' },
      { x: 97, y: 62, text: 'gap', anchor: 'start' },
      { x: 157, y: 80, text: 'gap', anchor: 'start' },
      { x: 306, y: 114, text: 'straightedge', anchor: 'end' },
    ],
  },
  below: {
    name: 'The bottom of a boat seen from below, the bow up.',
    summary:
      'Seen from below, as you lie under it and look up, the bow at the top: PORT is on the right of the picture, STARBOARD on the left. Seen from above they change places.',
    width: 320,
    height: 220,
    strokes: [
      { as: 'surface', path: 'M112 190V92Q114 44 180 12Q246 44 248 92V190Z' },
      { as: 'thin', path: 'M180 12V190' },
      { as: 'tool', path: box(212, 92, 5, 98) },
    ],
    labels: [
      { x: 180, y: 208, text: 'TRANSOM', anchor: 'middle' },
      { x: 174, y: 76, text: 'KEEL', anchor: 'end' },
      { x: 256, y: 130, text: 'PORT', anchor: 'start' },
      { x: 104, y: 130, text: 'STARBOARD', anchor: 'end' },
      { x: 196, y: 20, text: 'BOW ↑', anchor: 'start' },
      { x: 222, y: 86, text: 'a line', anchor: 'middle' },
    ],
  },
};

export function helpDrawing(topic: Drawn): HelpDrawing {
  return DRAWINGS[topic];
}
