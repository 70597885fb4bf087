import { NoAnswer, refusalOf } from '../client.ts'

/**
 * Sends or fetches what is not JSON: the bytes of a sheet, a picture, a file to keep. A large one may take its time.
 * @throws Refusal in the hub's words; NoAnswer when there is none
 */
export async function askForBytes(method: 'GET' | 'POST', path: string, body?: BodyInit): Promise<Response> {
  let response: Response
  try {
    response = await fetch(path, {
      method,
      ...(body === undefined ? {} : { body, headers: { 'content-type': 'application/octet-stream' } }),
    })
  } catch {
    throw new NoAnswer()
  }
  if (response.ok) return response
  throw refusalOf(response, await response.json().catch(() => null))
}
