import { mount } from 'svelte';
import { svgText, svgToPng } from '../../../web/parts/svgExport.ts';
import Gallery from './Gallery.svelte';

declare global {
  interface Window {
    pictures: { readonly svgText: typeof svgText; readonly svgToPng: typeof svgToPng };
  }
}

window.pictures = { svgText, svgToPng };
const target = document.getElementById('main');
if (target === null) throw new Error('the page holds no element with the id "main"');
mount(Gallery, { target });
