// Choosing a file of a drawing.

/** Words that open the choice of a file. */
export function FileLink(props: { take: (file: File) => void; children: string }) {
  return (
    <label class="link file">
      <input
        type="file"
        accept=".svg,.dxf,.json,.jsonl,.png,.jpg,.jpeg,image/png,image/jpeg,image/svg+xml"
        onChange={(event) => {
          const field = event.currentTarget;
          const file = field.files?.[0];
          field.value = "";
          if (file) props.take(file);
        }}
      />
      <span>{props.children}</span>
    </label>
  );
}
