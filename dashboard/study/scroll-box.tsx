import type { ComponentChildren } from 'preact'

/** A frame in which a wide table moves sideways, with a finger or the arrow keys. */
export function ScrollBox({ name, children }: { name: string; children: ComponentChildren }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable with the keyboard
    <section class="study-scroll" tabIndex={0} aria-label={name}>
      {children}
    </section>
  )
}
