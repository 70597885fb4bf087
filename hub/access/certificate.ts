import { createPrivateKey, X509Certificate } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { HubError, messageOf } from '../errors.ts'

/**
 * A certificate and its key, as the teacher supplies them.
 * @returns null when neither is given
 * @throws HubError `E_CERTIFICATE` when one is missing, cannot be read, has run out, or they do not belong together
 */
export function readCertificate(
  certFile: string | undefined,
  keyFile: string | undefined,
): { cert: string; key: string } | null {
  if (certFile === undefined && keyFile === undefined) return null
  if (certFile === undefined || keyFile === undefined)
    throw new HubError('E_CERTIFICATE', 'HTTPS needs both --https-cert and --https-key.')
  try {
    const cert = readFileSync(certFile, 'utf8')
    const key = readFileSync(keyFile, 'utf8')
    const certificate = new X509Certificate(cert)
    if (!certificate.checkPrivateKey(createPrivateKey(key)))
      throw new HubError('E_CERTIFICATE', `The key ${keyFile} is not that of ${certFile}.`)
    if (Date.parse(certificate.validTo) < Date.now())
      throw new HubError('E_CERTIFICATE', `${certFile} ran out on ${certificate.validTo}.`)
    return { cert, key }
  } catch (error) {
    if (error instanceof HubError) throw error
    throw new HubError('E_CERTIFICATE', `${certFile} or ${keyFile} cannot be used: ${messageOf(error)}.`, {
      cause: error,
    })
  }
}
