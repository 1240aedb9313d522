/** Draws a view; called whenever the shell renders. Anything Lit can render. */
export type DrawView = () => unknown;

/** One entry of the navigation. `load` imports the view's own chunk. */
export interface View {
  /** Name in the address: lower case, no spaces. */
  readonly id: string;
  readonly label: string;
  readonly load: () => Promise<DrawView>;
}

/** Order of the navigation; a view that is not built is not listed. */
export const VIEWS: readonly View[] = [];
