// A drawing that the core made, as it is.

import { useMemo } from "preact/hooks";

export function Markup({ text, class: name }: { text: string; class?: string }) {
  const html = useMemo(() => ({ __html: text }), [text]);
  return <div class={`drawn${name ? ` ${name}` : ""}`} dangerouslySetInnerHTML={html} />;
}
