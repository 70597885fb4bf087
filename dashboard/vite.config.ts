import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vite'

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  base: '/',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: '../.build/page',
    emptyOutDir: true,
    assetsDir: 'assets',
    // the page's own security policy refuses data: for anything but pictures
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
})
