/** Opens so many tabs side by side and waits for each to be live. @returns ms the slowest took */
export async function tabsAtOnce(browser, address, count) {
  const tabs = []
  let slowest = 0
  for (let tab = 0; tab < count; tab++) {
    const page = await browser.newPage()
    tabs.push(page)
    const begun = performance.now()
    await page.goto(address, { waitUntil: 'commit' })
    await page.locator('[data-connection="live"]').waitFor()
    slowest = Math.max(slowest, performance.now() - begun)
  }
  for (const page of tabs) await page.close()
  return slowest
}
