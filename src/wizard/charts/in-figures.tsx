import type { ComponentChildren } from 'preact';

interface Props {
  /** on the fold, and the name of the table */
  readonly title: string;
  readonly columns: readonly { readonly name: string; readonly number?: boolean }[];
  /** the first cell of a row names it */
  readonly rows: readonly (readonly ComponentChildren[])[];
}

/** What a chart shows, as a table: for a screen reader, for paper, and for whoever wants the figure. */
export function InFigures({ title, columns, rows }: Props) {
  return (
    <details class="in-figures">
      <summary>{title}</summary>
      <table aria-label={title}>
        <thead>
          <tr>
            {columns.map(({ name, number }) => (
              <th scope="col" class={number === true ? 'number' : undefined} key={name}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells, row) => (
            <tr key={row}>
              {cells.map((cell, at) =>
                at === 0 ? (
                  <th scope="row" key={at}>
                    {cell}
                  </th>
                ) : (
                  <td class={columns[at]?.number === true ? 'number' : undefined} key={at}>
                    {cell}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
