import { useState } from 'preact/hooks'
import { messageOf } from '../client.ts'
import { enter, leave, you } from './you.ts'

/** Where the class enters its code, and the teacher the passphrase. */
export function EnterPage() {
  const here = you.value
  const isStranger = here?.role === 'stranger'
  return (
    <article class="plain-page">
      <h1>{isStranger ? 'This hub asks for the class code' : 'Enter as the teacher'}</h1>
      {isStranger && <SecretForm as="class" label="Class code" button="Look on" />}
      {here?.role === 'teacher' ? (
        <>
          <p>You are let in as the teacher: you may change the survey.</p>
          {here.isOnNetwork && (
            <button type="button" class="plain" onClick={() => void leave()}>
              Leave
            </button>
          )}
        </>
      ) : (
        <>
          {isStranger && <h2>For the teacher</h2>}
          <SecretForm as="teacher" label="Teacher’s passphrase" button="Enter" />
          <p class="faint">
            The class may look, take spot readings, say that a trap was looked at, and download. Everything
            else is the teacher’s. At the hub’s own screen no passphrase is asked for.
          </p>
        </>
      )}
    </article>
  )
}

function SecretForm({ as, label, button }: { as: 'teacher' | 'class'; label: string; button: string }) {
  const [secret, setSecret] = useState('')
  const [trouble, setTrouble] = useState('')
  const [isBusy, setBusy] = useState(false)
  const field = {
    id: `secret-${as}`,
    value: secret,
    onInput: (event: { currentTarget: HTMLInputElement }) => setSecret(event.currentTarget.value),
  }
  const send = async (event: Event) => {
    event.preventDefault()
    setBusy(true)
    setTrouble('')
    try {
      await enter(as, secret)
    } catch (error) {
      setTrouble(messageOf(error))
      setBusy(false)
    }
  }
  return (
    <form class="fields" onSubmit={(event) => void send(event)}>
      <div class={`field${trouble ? ' is-wrong' : ''}`}>
        <label for={`secret-${as}`}>{label}</label>
        <span class="field-line">
          {as === 'teacher' ? (
            <input type="password" autoComplete="current-password" {...field} />
          ) : (
            <input type="text" autoComplete="off" autoCapitalize="none" {...field} />
          )}
        </span>
        {trouble && (
          <small class="field-wrong" role="alert">
            {trouble}
          </small>
        )}
      </div>
      <p class="form-ways">
        <button type="submit" disabled={isBusy || secret === ''}>
          {button}
        </button>
      </p>
    </form>
  )
}
