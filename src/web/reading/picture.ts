// A plot as a file: SVG as it is drawn, PNG at twice its size, with the page's own type inside.
import encodeSansUrl from '@fontsource-variable/encode-sans/files/encode-sans-latin-wdth-normal.woff2?url';
import { plotDocument } from '../../charts/plot-document.ts';
import type { PlotSpec } from '../../charts/plot-spec.ts';

const size = { widthPx: 960, heightPx: 460 };
const pngScale = 2;

export function plotSvg(spec: PlotSpec): Blob {
  return new Blob([plotDocument(spec, size)], { type: 'image/svg+xml' });
}

/** The type as part of a document, so that a picture of it looks the same where the type is not installed. */
async function typeInside(): Promise<string> {
  const bytes = new Uint8Array(await (await fetch(encodeSansUrl)).arrayBuffer());
  let text = '';
  for (let at = 0; at < bytes.length; at += 8192) text += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return `<style>@font-face{font-family:"Encode Sans Variable";src:url(data:font/woff2;base64,${btoa(text)});font-weight:100 900;font-stretch:75% 125%}</style>`;
}

function loaded(address: string): Promise<HTMLImageElement> {
  return new Promise((resolve, reject) => {
    const image = new Image();
    image.onload = () => resolve(image);
    image.onerror = () => reject(new Error('the browser could not draw the picture'));
    image.src = address;
  });
}

export async function plotPng(spec: PlotSpec): Promise<Blob> {
  const type = await typeInside().catch(() => '');
  const svg = plotDocument(spec, size).replace('<title>', `${type}<title>`);
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = await loaded(address);
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = size.widthPx * pngScale;
    canvas.height = size.heightPx * pngScale;
    const pen = canvas.getContext('2d');
    if (!pen) throw new Error('the browser could not draw the picture');
    pen.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise<Blob>((resolve, reject) =>
      canvas.toBlob(
        (blob) => (blob ? resolve(blob) : reject(new Error('the browser could not draw the picture'))),
        'image/png',
      ),
    );
  } finally {
    URL.revokeObjectURL(address);
  }
}
