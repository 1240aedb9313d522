// Finds the control of a place of the scenario, through shadow roots and folds.

const FOCUSABLE = 'input, select, textarea, button';
/** Frames that elements get to draw what was just unfolded. */
const TURNS = 8;

/** What to focus for a place: its control, or that of the nearest place around it. */
export async function controlAt(root: ParentNode, path: string): Promise<HTMLElement | undefined> {
  for (let turn = 0; turn < TURNS; turn++) {
    const holder = holderOf(root, path);
    const control = holder && focusableIn(holder);
    if (control && (holder.dataset['path'] === path || turn === TURNS - 1)) return control;
    await new Promise((resolve) => requestAnimationFrame(resolve));
  }
  return undefined;
}

/** The element marked with the longest beginning of the path. */
function holderOf(root: ParentNode, path: string): HTMLElement | undefined {
  const marked = [...deep(root)].filter((element) => {
    const at = element.dataset['path'];
    return at !== undefined && (path === at || path.startsWith(`${at}.`) || path.startsWith(`${at}[`));
  });
  return marked.sort((a, b) => (b.dataset['path']?.length ?? 0) - (a.dataset['path']?.length ?? 0))[0];
}

function focusableIn(holder: HTMLElement): HTMLElement | undefined {
  if (holder.matches(FOCUSABLE)) return holder;
  return [...deep(holder)].find((element) => element.matches(FOCUSABLE));
}

function* deep(root: ParentNode): Generator<HTMLElement> {
  const own = root instanceof HTMLElement && root.shadowRoot ? [...root.shadowRoot.children] : [];
  for (const child of [...own, ...root.children]) {
    if (!(child instanceof HTMLElement)) continue;
    yield child;
    yield* deep(child);
  }
}
