// Tables for spreadsheets: comma-separated values (RFC 4180, line feeds).

/** A cell; what is not known is empty. Text that a spreadsheet would take for a formula gets an apostrophe before it. */
function cell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(Number(value.toPrecision(7)));
  const harmless = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\n\r]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

/** The table of `rows` under `header`. */
export function csvText(header: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string {
  return `${[header, ...rows].map((row) => row.map(cell).join(',')).join('\n')}\n`;
}
