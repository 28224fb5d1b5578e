import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig, type Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { chunks } from './tools/chunks.ts';

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
  plugins: [
    svelte({ configFile: here('./svelte.config.js') }),
    policyInPage(),
    VitePWA({
      strategies: 'injectManifest',
      srcDir: 'offline',
      filename: 'worker.ts',
      // The page registers it itself, and asks the person before it takes a newer one.
      registerType: 'prompt',
      injectRegister: false,
      injectManifest: {
        globPatterns: ['**/*.{html,js,css,svg,png,webmanifest}'],
        maximumFileSizeToCacheInBytes: 4 * 1024 * 1024,
      },
      integration: {
        // The worker's own build is as quiet as the app's.
        configureCustomSWViteBuild: (worker) => {
          worker.logLevel = 'error';
        },
      },
      manifest: {
        name: 'aftrun',
        short_name: 'aftrun',
        description: 'Is the bottom fair, hooked or rockered; by how much; how sure.',
        start_url: './',
        scope: './',
        display: 'standalone',
        background_color: '#f6f4ee',
        theme_color: '#1d3a4a',
        icons: [
          { src: 'favicon.svg', sizes: 'any', type: 'image/svg+xml' },
          { src: 'icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png' },
          {
            src: 'icon-512-maskable.png',
            sizes: '512x512',
            type: 'image/png',
            purpose: 'maskable',
          },
        ],
      },
    }),
  ],
  build: {
    outDir: here('./dist'),
    emptyOutDir: true,
    target: 'es2022',
    rolldownOptions: {
      output: {
        codeSplitting: chunks(here('./web/main.ts')),
        // The bundler's own name for shared parts lists all that share them.
        chunkFileNames: ({ name }) =>
          name.startsWith('shared') ? 'assets/shared-[hash].js' : 'assets/[name]-[hash].js',
      },
    },
  },
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
