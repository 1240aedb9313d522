// Tables as comma-separated text (RFC 4180).

export type Cell = string | number | undefined;

export interface Column {
  readonly key: string;
  readonly label: string;
  readonly unit?: string;
  /** How a number is shown on the page, beside others of its row; the CSV keeps it in full. */
  readonly show?: (value: number, row: Row) => string;
}

export type Row = Readonly<Record<string, Cell>>;

/** Records end in CR LF, cells with commas, quotes or line breaks are quoted, quotes doubled. Units stand in the heading. */
export function csvText(columns: readonly Column[], rows: readonly Row[]): string {
  const head = columns.map((column) => quoted(headingText(column)));
  const lines = rows.map((row) => columns.map((column) => csvCell(row[column.key])));
  return [head, ...lines].map((cells) => `${cells.join(',')}\r\n`).join('');
}

export function headingText(column: Column): string {
  return column.unit ? `${column.label}, ${column.unit}` : column.label;
}

function csvCell(value: Cell): string {
  if (value === undefined) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
  return quoted(inert(value));
}

/** Spreadsheets run text that begins with these as a formula; a leading apostrophe keeps it text. */
function inert(text: string): string {
  return /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
}

function quoted(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
