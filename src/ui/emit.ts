/** Sends an event up through shadow roots: data goes down as properties, events go up. */
export function emit<Detail>(host: EventTarget, name: string, detail: Detail): void {
  host.dispatchEvent(new CustomEvent<Detail>(name, { detail, bubbles: true, composed: true }));
}
