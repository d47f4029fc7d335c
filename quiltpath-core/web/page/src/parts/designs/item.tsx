// A row of a card.

import type { ComponentChildren } from "preact";

export function Item({ name, children }: { name: string; children: ComponentChildren }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </>
  );
}
