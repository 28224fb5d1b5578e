import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig, type Plugin } from 'vite';

const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "manifest-src 'self'",
  // The person names the server that tablets share, so it cannot be narrower.
  "connect-src 'self' https: http://localhost:* http://127.0.0.1:*",
  "base-uri 'none'",
  "form-action 'none'",
  "object-src 'none'",
].join('; ');

/** Puts the policy into the built page. The development server needs inline scripts, so only there. */
function policyInPage(): Plugin {
  return {
    name: 'policy-in-page',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: contentSecurityPolicy },
        injectTo: 'head-prepend',
      },
    ],
  };
}

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

const { version } = JSON.parse(readFileSync(here('./package.json'), 'utf8')) as { version: string };

export default defineConfig({
  define: { APP_VERSION: JSON.stringify(version) },
  root: here('./web'),
  base: './',
  plugins: [svelte({ configFile: here('./svelte.config.js') }), policyInPage()],
  build: { outDir: here('./dist'), emptyOutDir: true, target: 'es2022' },
  worker: { format: 'es' },
  preview: {
    // A page's own meta tag cannot say who may frame it: that takes a header.
    headers: {
      'Content-Security-Policy': "frame-ancestors 'none'",
      'X-Content-Type-Options': 'nosniff',
      'Referrer-Policy': 'no-referrer',
    },
  },
});
