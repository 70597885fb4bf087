/** Hands a file that this page holds over to be saved. */
export function saveFile(name: string, bytes: Blob): void {
  const address = URL.createObjectURL(bytes)
  const link = document.createElement('a')
  link.href = address
  link.download = name
  document.body.append(link)
  link.click()
  link.remove()
  // the browser may begin to read it after the click
  setTimeout(() => URL.revokeObjectURL(address), 60_000)
}
