import type { Theme } from '../../../sim/colour/index.ts';
import { PALETTE, type Palette } from './palette.ts';

// The look of the page as CSS custom properties, and the switch between light and dark.

export type ThemeChoice = 'system' | 'light' | 'dark';

export const THEME_CHOICES: readonly ThemeChoice[] = ['system', 'light', 'dark'];

const THEME_KEY = 'bandfall.theme';

const DARK_QUERY = '(prefers-color-scheme: dark)';

/** Sizes are in rem so that the reader's own font size and zoom carry through. */
const SIZES = `
  --font: system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", "Liberation Sans", sans-serif;
  --text-small: 0.875rem;
  --text-large: 1.25rem;
  --gap-small: 0.375rem;
  --gap: 0.75rem;
  --gap-large: 1.5rem;
  --round: 0.375rem;
  --target: 2.25rem;
  --motion: 160ms;`;

/** Style sheet of the document: tokens, base type, print. */
export function themeCss(): string {
  return `
:root { color-scheme: light dark; ${SIZES} ${properties(PALETTE.light)} }
@media ${DARK_QUERY} { :root { ${properties(PALETTE.dark)} } }
:root[data-theme="light"] { color-scheme: light; ${properties(PALETTE.light)} }
:root[data-theme="dark"] { color-scheme: dark; ${properties(PALETTE.dark)} }
@media (pointer: coarse) { :root { --target: 2.75rem; } }
@media (prefers-reduced-motion: reduce) { :root { --motion: 0ms; } }
html { font: 400 clamp(1rem, 0.94rem + 0.12vw, 1.25rem)/1.45 var(--font); font-variant-numeric: tabular-nums;
  background: var(--paper); color: var(--ink); -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; }
@media print {
  :root:root:root { color-scheme: light; ${properties(PALETTE.light)} --paper: #ffffff; }
  html { font-size: 10.5pt; }
  @page { margin: 14mm; }
}`;
}

/** Puts the style sheet on the document and the remembered choice on its root. */
export function installTheme(page: Document, storage: Storage | undefined): ThemeChoice {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(themeCss());
  page.adoptedStyleSheets = [...page.adoptedStyleSheets, sheet];
  const choice = rememberedTheme(storage);
  showTheme(page, choice);
  return choice;
}

/** The choice kept on this machine; `system` when there is none or it cannot be read. */
export function rememberedTheme(storage: Storage | undefined): ThemeChoice {
  try {
    const kept = storage?.getItem(THEME_KEY);
    return THEME_CHOICES.find((choice) => choice === kept) ?? 'system';
  } catch {
    return 'system';
  }
}

/** Shows a theme and remembers it where the browser allows. */
export function chooseTheme(page: Document, storage: Storage | undefined, choice: ThemeChoice): void {
  showTheme(page, choice);
  try {
    storage?.setItem(THEME_KEY, choice);
  } catch {
    // Storage is full or blocked: the choice is then not remembered.
  }
}

/** The theme on screen, for drawings that cannot use CSS. */
export function shownTheme(page: Document): Theme {
  const chosen = page.documentElement.dataset['theme'];
  if (chosen === 'light' || chosen === 'dark') return chosen;
  return matchMedia(DARK_QUERY).matches ? 'dark' : 'light';
}

/** Calls `changed` whenever the colours on screen change. Returns the stop. */
export function watchTheme(changed: () => void): () => void {
  const dark = matchMedia(DARK_QUERY);
  const root = new MutationObserver(changed);
  root.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
  dark.addEventListener('change', changed);
  return () => {
    root.disconnect();
    dark.removeEventListener('change', changed);
  };
}

function showTheme(page: Document, choice: ThemeChoice): void {
  if (choice === 'system') delete page.documentElement.dataset['theme'];
  else page.documentElement.dataset['theme'] = choice;
}

function properties(colours: Palette): string {
  return Object.entries(colours)
    .map(([name, colour]) => `--${name}: ${colour};`)
    .join(' ');
}
