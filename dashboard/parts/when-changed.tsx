import { Component, type ComponentType } from 'preact'

/** The same component, drawn again only when one of its props is another than before; of a list, one of its entries. */
export function whenChanged<Props extends object>(Inner: ComponentType<Props>): ComponentType<Props> {
  return class WhenChanged extends Component<Props> {
    override shouldComponentUpdate(next: Props): boolean {
      const now = this.props as Props
      return (Object.keys(next) as (keyof Props)[]).some((name) => !isSame(next[name], now[name]))
    }
    override render() {
      return <Inner {...(this.props as Props)} />
    }
  }
}

function isSame(one: unknown, other: unknown): boolean {
  if (one === other) return true
  if (!Array.isArray(one) || !Array.isArray(other) || one.length !== other.length) return false
  return one.every((entry, index) => entry === other[index])
}
