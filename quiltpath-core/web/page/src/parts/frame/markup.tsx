// A drawing that the core made, as it is.

import { useMemo } from "preact/hooks";

interface Props {
  text: string;
  class?: string;
  /** Whether words beside it say all that it shows. */
  hidden?: boolean;
}

export function Markup({ text, class: name, hidden = false }: Props) {
  const html = useMemo(() => ({ __html: text }), [text]);
  return <div class={`drawn${name ? ` ${name}` : ""}`} aria-hidden={hidden || undefined} dangerouslySetInnerHTML={html} />;
}
