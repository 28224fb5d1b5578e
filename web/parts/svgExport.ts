import { saveBlob } from './saveFile.ts';

/** What a picture's look is made of, as attributes, with what each is where nobody sets it: a file has no style sheet,
 *  and a style attribute is refused by the page's own policy. */
const LOOK: readonly (readonly [name: string, initial: string])[] = [
  ['fill', 'rgb(0, 0, 0)'],
  ['fill-opacity', '1'],
  ['stroke', 'none'],
  ['stroke-width', '1px'],
  ['stroke-dasharray', 'none'],
  ['stroke-linejoin', 'miter'],
  ['opacity', '1'],
  ['paint-order', 'normal'],
];
const TEXT_LOOK: typeof LOOK = [
  ['font-size', ''],
  ['font-weight', '400'],
  ['font-style', 'normal'],
  ['text-anchor', 'start'],
];
const FONT = 'Helvetica, Arial, sans-serif';

/** A picture as a file of its own: in the colours of paper whatever the screen shows, nothing referred to outside.
 *  The picture must stand in the page. */
export function svgText(svg: SVGSVGElement): string {
  const [width, height] = [svg.viewBox.baseVal.width, svg.viewBox.baseVal.height];
  const stage = document.createElement('div');
  stage.className = 'on-paper unseen';
  stage.setAttribute('aria-hidden', 'true');
  const copy = svg.cloneNode(true) as SVGSVGElement;
  copy.setAttribute('width', String(width));
  copy.setAttribute('height', String(height));
  for (const each of copy.querySelectorAll('[data-screen-only]')) each.remove();
  stage.append(copy);
  document.body.append(stage);
  try {
    const paper = getComputedStyle(stage).getPropertyValue('--paper-raised').trim();
    // Only what is drawn carries a look, and all are read before any is changed: fonts are inherited.
    const drawn = [...copy.querySelectorAll('path, rect, circle, text')].map((element) => {
      const look = getComputedStyle(element);
      const names = element.tagName === 'text' ? [...LOOK, ...TEXT_LOOK] : LOOK;
      const values = names.map(([name, initial]) => ({
        name,
        initial,
        value: look.getPropertyValue(name),
      }));
      return { element, values };
    });
    for (const { element, values } of drawn) {
      if (element.closest('clipPath')) continue;
      for (const { name, initial, value } of values) {
        if (value !== '' && value !== initial) element.setAttribute(name, value);
      }
    }
    for (const element of [copy, ...copy.querySelectorAll('*')]) {
      element.removeAttribute('class');
      element.removeAttribute('style');
    }
    copy.setAttribute('font-family', FONT);
    const ground = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
    for (const [name, value] of [
      ['width', String(width)],
      ['height', String(height)],
      ['fill', paper],
    ]) {
      ground.setAttribute(name, value);
    }
    const first = copy.querySelector('clipPath, g, path, text, rect');
    copy.insertBefore(ground, first);
    const source = new XMLSerializer().serializeToString(copy).replaceAll('<!---->', '');
    return `<?xml version="1.0" encoding="UTF-8"?>\n${source}\n`;
  } finally {
    stage.remove();
  }
}

/** The same as an image, `times` as many pixels a side. Throws an Error where the browser cannot draw it. */
export async function svgToPng(svg: SVGSVGElement, times = 3): Promise<Blob> {
  const url = URL.createObjectURL(new Blob([svgText(svg)], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(svg.viewBox.baseVal.width * times);
    canvas.height = Math.round(svg.viewBox.baseVal.height * times);
    const pen = canvas.getContext('2d');
    if (!pen) throw new Error('this browser gives no canvas');
    pen.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
    if (!blob) throw new Error('this browser made no PNG');
    return blob;
  } finally {
    URL.revokeObjectURL(url);
  }
}

/** Gives the person a picture as a file. */
export async function savePicture(
  svg: SVGSVGElement,
  name: string,
  as: 'svg' | 'png',
): Promise<void> {
  const blob =
    as === 'png' ? await svgToPng(svg) : new Blob([svgText(svg)], { type: 'image/svg+xml' });
  saveBlob(blob, `${name.replaceAll(' · ', ' ')}.${as}`);
}
