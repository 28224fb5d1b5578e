import { mount } from 'svelte';
import App from './App.svelte';

const target = document.getElementById('app');
if (target === null) throw new Error('the page holds no element with the id "app"');
mount(App, { target });
