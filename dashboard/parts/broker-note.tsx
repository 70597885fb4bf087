import type { HubNow } from '../../hub/contract/status.ts'

/** Where a board without a cable publishes to. */
export function BrokerNote({ broker }: { broker: HubNow['broker'] }) {
  return (
    <section class="broker">
      <h2>Boards on Wi-Fi</h2>
      <p>
        They publish by MQTT to the hub: <b>{broker.description}</b>. Use the hub’s own address on the Wi-Fi
        in place of 127.0.0.1.
      </p>
      <p>
        A board called <code>sedge-1</code> publishes to <code>tussock/sedge-1/pack</code> with quality of
        service 1, one SenML pack a message, such as
      </p>
      <code class="bytes">
        {'[{"bn":"sedge-1/","n":"startup","v":7},{"n":"message","v":42},{"n":"ph","u":"mV","v":84.2}]'}
      </code>
      <p>It turns up on this page by itself; nothing has to be registered first.</p>
    </section>
  )
}
