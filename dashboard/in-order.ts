/**
 * For answers that may overtake each other on a bad network: each question takes a number, and an answer counts only if none
 * to a later question was taken before it.
 * @returns called when asking; what that returns is called when the answer is there, and says whether it counts
 */
export function inOrder(): () => () => boolean {
  let asked = 0
  let taken = 0
  return () => {
    const turn = ++asked
    return () => {
      if (turn < taken) return false
      taken = turn
      return true
    }
  }
}
