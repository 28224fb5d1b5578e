import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const css = readFileSync(new URL('../../web/style.css', import.meta.url), 'utf8');

/** The custom properties set by the first block that follows this text. */
function tokens(after: string): ReadonlyMap<string, string> {
  const start = css.indexOf(after);
  if (start < 0) throw new Error(`no block ${after}`);
  const block = css.slice(css.indexOf('{', start + after.length - 1) + 1);
  const body = block.slice(0, block.indexOf('}'));
  return new Map([...body.matchAll(/(--[a-z-]+):\s*(#[0-9a-f]{6});/g)].map(([, k, v]) => [k, v]));
}

/** Contrast of two colours. Source: WCAG 2.2, "contrast ratio" and "relative luminance". */
function contrast(a: string, b: string): number {
  const luminance = (hex: string): number => {
    const [red, green, blue] = [1, 3, 5].map((at) => {
      const part = parseInt(hex.slice(at, at + 2), 16) / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [low, high] = [luminance(a), luminance(b)].sort((p, q) => p - q);
  return (high + 0.05) / (low + 0.05);
}

const THEMES = {
  light: tokens(':root,\n.on-paper {'),
  dark: tokens(":root[data-theme='dark'] {"),
  sun: tokens(":root[data-theme='sun'] {"),
  print: tokens('@media print {\n  :root:not([data-theme]),\n  :root[data-theme] {'),
};
const FIGURES = ['ink', 'ink-soft', 'accent', 'proud', 'hollow', 'undecided', 'alarm'];

test('black on white has the contrast of 21 that WCAG 2.2 states', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
});

test.each(Object.entries(THEMES))(
  'every colour that carries words or figures contrasts 7 to 1 with the paper: %s',
  (_name, theme) => {
    for (const ground of ['--paper', '--paper-raised']) {
      for (const figure of FIGURES) {
        const ratio = contrast(String(theme.get(`--${figure}`)), String(theme.get(ground)));
        expect(ratio, `--${figure} on ${ground}`).toBeGreaterThanOrEqual(7);
      }
    }
  },
);

test('the focus ring contrasts 3 to 1 with the paper in every theme', () => {
  for (const theme of Object.values(THEMES)) {
    const ratio = contrast(String(theme.get('--focus')), String(theme.get('--paper')));
    expect(ratio).toBeGreaterThanOrEqual(3);
  }
});

test('dark is the same whether the device asks for it or the person does', () => {
  expect(tokens(':root:not([data-theme]) {')).toEqual(THEMES.dark);
});
