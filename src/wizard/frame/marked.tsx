/** A sentence of the catalogue; what stands between backticks is set as code. */
export function Marked({ text }: { readonly text: string }) {
  return <>{text.split('`').map((part, index) => (index % 2 === 1 ? <code key={part}>{part}</code> : part))}</>;
}
