import { Sha256 } from '../../src/book/sha256.ts';
import { KEPT_PHOTO } from '../../src/survey/kinds/photo.ts';
import { keptPictureFault } from '../../src/survey/photo/keptPictureFault.ts';
import { plainFileName } from '../../src/survey/photo/plainFileName.ts';
import { readPictureHead, type PictureHead } from '../../src/survey/photo/pictureHead.ts';
import {
  PICTURE_BYTES,
  scaledSize,
  tooLarge,
  type PictureSize,
} from '../../src/survey/photo/pictureSize.ts';
import type { PhotoAnswer, PhotoJob } from './photoJobs.ts';
import { reasonOf } from './reasonOf.ts';

/** Scales pictures down and checks those that are kept, one at a time, off the page's own thread. To scale, a new JPEG is drawn, so that nothing of the file but
 *  its picture is kept: no place, time or camera. */

/** Bytes that a kept picture should not exceed: twenty of them are 8 MB. */
const AIM = 400_000;

/** Longest side in pixels, and JPEG quality: from the first, on until the aim is met. A picture is first pressed
 *  harder, then made smaller; the last is taken as it is. */
const TRIES = [
  [1600, 0.85],
  [1600, 0.72],
  [1600, 0.6],
  [1280, 0.6],
  [1024, 0.6],
  [800, 0.5],
] as const;

self.onmessage = ({ data: job }: MessageEvent<PhotoJob>): void => {
  const done = job.do === 'scale' ? scaledDown(job.file) : checked(job);
  done.then(say, (error: unknown) => {
    say({ is: 'failed', reason: reasonOf(error) });
  });
};

function say(answer: PhotoAnswer): void {
  self.postMessage(answer);
}

async function checked({ data, kept }: Extract<PhotoJob, { do: 'check' }>): Promise<PhotoAnswer> {
  const fault = keptPictureFault(new Uint8Array(await data.arrayBuffer()), kept);
  return fault === undefined
    ? { is: 'as it was' }
    : { is: 'refused', found: fault.found, expected: fault.expected };
}

async function scaledDown(file: File): Promise<PhotoAnswer> {
  if (file.size > PICTURE_BYTES) {
    const found = `a file of ${Math.round(file.size / 1e6)} MB`;
    return { is: 'refused', found, expected: `at most ${PICTURE_BYTES / 1e6} MB` };
  }
  const head = readPictureHead(new Uint8Array(await file.arrayBuffer()));
  if (!head.ok) return { is: 'refused', found: head.found, expected: head.expected };
  const large = tooLarge(head);
  if (large !== undefined) return { is: 'refused', ...large };
  const bitmap = await decoded(file, head);
  if (bitmap === undefined) {
    const found = `a picture (${head.type}) that cannot be decoded`;
    return { is: 'refused', found, expected: 'one that is whole' };
  }
  const { data, width, height } = await pressed(bitmap);
  bitmap.close();
  const hash = new Sha256();
  hash.update(new Uint8Array(await data.arrayBuffer()));
  const name = plainFileName(file.name);
  const picture = {
    data,
    kept: {
      name: KEPT_PHOTO,
      type: 'image/jpeg' as const,
      bytes: data.size,
      sha256: hash.hex(),
      width,
      height,
    },
    original: {
      ...(name !== undefined && { name }),
      type: head.type,
      bytes: file.size,
      width: head.width,
      height: head.height,
    },
  };
  return { is: 'scaled', picture };
}

/** Turned as the file asks for. Undefined where the browser cannot. */
async function decoded(file: File, { type }: PictureHead): Promise<ImageBitmap | undefined> {
  try {
    const own = file.slice(0, file.size, type);
    return await createImageBitmap(own, { imageOrientation: 'from-image' });
  } catch {
    return undefined;
  }
}

async function pressed(bitmap: ImageBitmap): Promise<PictureSize & { readonly data: Blob }> {
  let canvas: OffscreenCanvas | undefined;
  let data: Blob | undefined;
  for (const [longest, quality] of TRIES) {
    const size = scaledSize(bitmap, longest);
    if (canvas?.width !== size.width || canvas.height !== size.height) {
      canvas = drawn(bitmap, size);
    }
    data = await canvas.convertToBlob({ type: 'image/jpeg', quality });
    if (data.size <= AIM) break;
  }
  if (canvas === undefined || data?.type !== 'image/jpeg') {
    throw new Error('this browser cannot write JPEG');
  }
  return { data, width: canvas.width, height: canvas.height };
}

function drawn(bitmap: ImageBitmap, { width, height }: PictureSize): OffscreenCanvas {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { alpha: false });
  if (context === null) throw new Error('this browser cannot draw beside the page');
  // What a picture leaves clear would be black in a JPEG.
  context.fillStyle = '#fff';
  context.fillRect(0, 0, width, height);
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, width, height);
  return canvas;
}
