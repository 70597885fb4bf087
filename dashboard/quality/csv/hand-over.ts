/** Hands a text made on this page over to be saved as a file. */
export function handOver(name: string, kind: 'text/csv' | 'application/json', text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: `${kind};charset=utf-8` }))
  const link = document.createElement('a')
  link.href = address
  link.download = name
  document.body.append(link)
  link.click()
  link.remove()
  // the browser may begin to read it after the click
  setTimeout(() => URL.revokeObjectURL(address), 10_000)
}
