/** How large a picture is drawn: px on a screen, mm on paper. Everything in a view is in that unit. */
export interface DrawingSize {
  readonly width: number;
  readonly height: number;
  readonly unit: 'px' | 'mm';
  /** Height of its text, where it is not the usual one of the unit. */
  readonly text?: number;
}

const TEXT = { px: 13, mm: 2.7 } as const;

/** Height of the picture's text: what every other distance in it is a multiple of. */
export function textSize({ unit, text }: Pick<DrawingSize, 'unit' | 'text'>): number {
  return text ?? TEXT[unit];
}

/** To a hundredth: finer shows on no screen and no paper, and makes pictures unstable to compare. */
export function rounded(value: number): number {
  const hundredths = Math.round(value * 100) / 100;
  return hundredths === 0 ? 0 : hundredths;
}
