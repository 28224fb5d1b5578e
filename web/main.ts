import { mount } from 'svelte';
import App from './App.svelte';
import { storeInBrowser } from './store/inBrowser.ts';

const target = document.getElementById('app');
if (target === null) throw new Error('the page holds no element with the id "app"');
mount(App, { target, props: { store: storeInBrowser(APP_VERSION) } });
