import { encode } from 'uqr'

/** Empty modules around a code, as ISO/IEC 18004 asks for. */
const QUIET_ZONE = 4

/** A QR code of an address, made on this device; one unit a module. */
export function QrCode({ address }: { address: string }) {
  const { data, size } = encode(address, { ecc: 'M', border: QUIET_ZONE })
  const dark = data
    .flatMap((row, y) => row.flatMap((isDark, x) => (isDark ? [`M${x} ${y}h1v1h-1z`] : [])))
    .join('')
  return (
    <svg
      class="qr"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={`QR code of ${address}`}
      shape-rendering="crispEdges"
      data-qr={address}
    >
      <rect width={size} height={size} fill="#fff" />
      <path d={dark} fill="#000" />
    </svg>
  )
}
