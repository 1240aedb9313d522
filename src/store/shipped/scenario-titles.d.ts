declare module 'virtual:scenario-titles' {
  /** Title of every shipped scenario by its id. */
  export const titles: Readonly<Record<string, string>>;
}
