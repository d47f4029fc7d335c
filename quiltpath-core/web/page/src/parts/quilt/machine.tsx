// The frame that the quilt goes on: how far down a pass reaches, and whether the quilt is turned.

import { put } from "../../core/document";
import { change, now, useStore } from "../../core/store";
import { Choose, Field } from "../../field";

export function Machine() {
  const { doc } = useStore("doc");
  const machine = doc.plan.machine ?? {};
  const set = (key: string, value: unknown, name: string, merge = false) => {
    const next = put(now().doc, ["machine", key], value);
    const empty = Object.keys(next.plan.machine ?? {}).length === 0;
    change(empty ? put(next, ["machine"], undefined) : next, name, merge);
  };
  return (
    <article class="strip-of">
      <h3>Your frame</h3>
      <p class="line">
        <Field
          label="How far down a pass reaches"
          value={machine.throat}
          place={["machine", "throat"]}
          blank="all"
          wide={4}
          onWrite={(text, merge) => set("throat", text || undefined, `throat, ${text || "all the way"}`, merge)}
        />{" "}
        <span>is how far down a pass reaches</span>
      </p>
      <p class="line">
        <span>For the upright sides:</span>{" "}
        <Choose
          name="turned"
          label="Whether the quilt is turned for its upright sides"
          value={machine.turned ? "turned" : "stays"}
          among={[["stays", "the quilt stays"], ["turned", "it is turned"]]}
          onChoose={(value) => set("turned", value === "turned" || undefined, value === "turned" ? "the quilt is turned" : "the quilt stays")}
        />
      </p>
    </article>
  );
}
