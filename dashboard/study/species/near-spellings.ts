/** Two names the hub found spelled almost alike. It tells them in a sentence among its notes. */
export function nearSpellings(notes: readonly string[]): [string, string][] {
  return notes.flatMap((note): [string, string][] => {
    const match = /^“(.+)” and “(.+)” are spelled almost alike\./.exec(note)
    return match ? [[match[1]!, match[2]!]] : []
  })
}
