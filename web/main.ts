import { mount } from 'svelte';
import App from './App.svelte';
import { storeInBrowser } from './store/inBrowser.ts';

const target = document.getElementById('app');
if (target === null) throw new Error('the page holds no element with the id "app"');
const store = storeInBrowser(APP_VERSION);
mount(App, { target, props: { store } });

// After the app is shown: storing all its files must not slow its start.
window.addEventListener('load', () => void store.offline.begin());
