/** Hands a text to the browser as a file to keep. */
export function saveAsFile(name: string, text: string, type = 'text/html'): void {
  const address = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // the browser takes the file a moment after the click
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
