import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals-core';

// Fields that know who has read them. A store declares what it holds and what follows from it, and everything that was drawn or
// computed from that is updated when it changes.

/** A field: setting it redraws what has read it, unless the value is the same. */
export function tracked(store: object, name: string): void {
  const held = perOwner((): Signal<unknown> => signal(undefined));
  Object.defineProperty(store, name, {
    get(this: object) {
      return held(this).value;
    },
    set(this: object, value: unknown) {
      held(this).value = value;
    },
  });
}

/** A getter whose value is computed once for all who read it, and again only after something that it read was set. It must set nothing itself. */
export function derived<Value>(_store: object, _name: string, { get }: TypedPropertyDescriptor<Value>): TypedPropertyDescriptor<Value> {
  if (!get) throw new Error('derived: expected a getter');
  const held = perOwner((owner): ReadonlySignal<Value> => computed(() => get.call(owner)));
  return {
    get(this: object) {
      return held(this).value;
    },
  };
}

function perOwner<Held>(make: (owner: object) => Held): (owner: object) => Held {
  const held = new WeakMap<object, Held>();
  return (owner) => {
    const known = held.get(owner) ?? make(owner);
    held.set(owner, known);
    return known;
  };
}
