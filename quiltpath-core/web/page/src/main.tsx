// The worksheet: one sheet of paper in four parts.

import { render } from "preact";
import { opened } from "./core/document";
import { open, putBack, takeBack, useStore } from "./core/store";
import { Designs } from "./parts/designs";
import { Frame } from "./parts/frame";
import { Quilt } from "./parts/quilt";
import { Result } from "./parts/result";

function Page() {
  const { doc, past, future } = useStore();
  const last = past.at(-1);
  return (
    <main class="sheet">
      <header class="head">
        <p class="kind">Worksheet</p>
        <h1>{doc.plan.title ?? "Your quilt"}</h1>
        <p>
          {last && <button class="link" onClick={takeBack}>Take back: {last.name}</button>}
          {future.length > 0 && <button class="link" onClick={putBack}>Put back</button>}
        </p>
      </header>
      <Quilt />
      <Designs />
      <Result />
      <Frame />
    </main>
  );
}

const examples = JSON.parse(document.getElementById("examples")?.textContent ?? "{}") as { demo: object };
render(<Page />, document.getElementById("sheet")!);
open(opened(JSON.stringify(examples.demo)), "the example");
