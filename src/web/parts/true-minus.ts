// Sentences of the core are plain text, which has no minus sign of its own; a page has one.

/** The same sentence with a true minus before its numbers: `-30 dBFS` as `−30 dBFS`. Names with hyphens stay. */
export const trueMinus = (text: string): string => text.replace(/(^|[\s(:;,/…])-(?=\d)/g, '$1\u2212');
