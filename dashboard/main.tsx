import { render } from 'preact'
import { App } from './app.tsx'
import { fetchChartsAhead } from './doors.tsx'
import { startTicking } from './hub-clock.ts'
import { openNotebook } from './notebook.ts'
import { startRouter } from './router.ts'
import './style/paper.css'
import './style/frame.css'
import './style/tape.css'
import './style/charts.css'
import './style/ledger.css'
import './style/forms.css'
import './quality/clean/clean.css'
import './quality/by-hand/by-hand.css'
import './quality/limits/limits.css'
import './quality/decisions/decisions.css'
import './style/print.css'

const root = document.getElementById('page')!
root.replaceChildren()
startRouter()
startTicking()
render(<App />, root)
void openNotebook().then(fetchChartsAhead)
