// Words at the beginning of a line and in the middle of one.

export const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
export const lower = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);
