// A board with five probes on a serial line: what it says and hears is in ../PROTOCOL.md, how it is wired in ../wiring/.
// Change settings.h for your own board.
#include "backlog.h"
#include "board-clock.h"
#include "carried-clock.h"
#include "converter.h"
#include "cups.h"
#include "light-sensor.h"
#include "request.h"
#include "sending.h"
#include "settings.h"
#include "startup-slots.h"
#include "thermometer.h"
#include <avr/eeprom.h>
#include <avr/power.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

// a reset leaves these alone, a loss of power does not
static Backlog backlog __attribute__((section(".noinit")));
static CarriedClock carriedClock __attribute__((section(".noinit")));
static uint8_t resetCause __attribute__((section(".noinit")));

static const uint32_t SHORTEST_INTERVAL = 1000;
static const uint32_t LONGEST_INTERVAL = 86400000UL;
static const uint32_t MEASURING_MILLIS = 800;

static uint32_t startup;
static uint32_t lastNumber;
static uint32_t sampledMillis;
static uint32_t dueMillis;
static bool isMeasuring;
static uint8_t lastHas;
static BoardClock boardClock;
static Sending sending;
static RequestLine requestLine;
static Cups cups;

// a watchdog goes on counting after the reset it made: switch it off before it bites again
void stopWatchdog() __attribute__((naked, used, section(".init3")));
void stopWatchdog() {
  resetCause = MCUSR;
  MCUSR = 0;
  wdt_disable();
}

static void onCupsEdge() { cups.edge(!digitalRead(CUPS_PIN), micros(), DEBOUNCE_MICROS); }
static uint8_t readCell(uint16_t at) { return eeprom_read_byte((const uint8_t*)at); }
static void writeCell(uint16_t at, uint8_t byte) { eeprom_update_byte((uint8_t*)at, byte); }
static void put(char c) { Serial.write((uint8_t)c); }
static uint32_t boardMillis() { return carriedClock.now(millis()); }

static void measureFrom(uint32_t nowMillis, uint32_t waitMillis) {
  dueMillis = nowMillis + waitMillis;
  isMeasuring = false;
}

void setup() {
  carriedClock.begin(resetCause & _BV(WDRF));
  const bool isCarriedOn = backlog.recover(INTERVAL_MILLIS);
  const SlotMemory memory = {readCell, writeCell};
  startup = nextStartup(memory);
  if (isCarriedOn) backlog.beginStartup();
  Serial.begin(BAUD_RATE);
  pinMode(CUPS_PIN, INPUT_PULLUP);
  attachInterrupt(digitalPinToInterrupt(CUPS_PIN), onCupsEdge, CHANGE);
  beginLight();
  beginThermometer();
  power_spi_disable();
  power_timer1_disable();
  power_timer2_disable();
  set_sleep_mode(SLEEP_MODE_IDLE); // deeper sleep would stop the serial line and the milliseconds
  sampledMillis = boardMillis();
  measureFrom(sampledMillis, MEASURING_MILLIS);
  wdt_enable(WDTO_8S);
}

static void startMeasuring() {
  startLight();
#if !HAS_THERMISTOR
  startThermometer();
#endif
  isMeasuring = true;
}

static void takeSample(uint32_t nowMillis) {
  Sample sample = {};
  sample.takenMillis = nowMillis;
  sample.startup = (uint16_t)startup;
  sample.number = ++lastNumber;
  sample.phSum = readInputSum(PH_INPUT);
  sample.moistureSum = readInputSum(MOISTURE_INPUT);
  sample.supplyMillivolt = readSupplyMillivolt();
  if (readLight(sample.lightCount)) sample.has |= HAS_LIGHT;
#if HAS_THERMISTOR
  sample.temperature = readInputSum(THERMISTOR_INPUT);
  sample.has |= HAS_TEMPERATURE;
#else
  if (readThermometer(sample.temperature)) sample.has |= HAS_TEMPERATURE;
#endif
  noInterrupts();
  const uint16_t turns = cups.take();
  interrupts();
  sample.windCentihertz = centihertz(turns, nowMillis - sampledMillis);
  sampledMillis = nowMillis;
  lastHas = sample.has;
  const bool isFull = backlog.head.count == BACKLOG_ROOM;
  backlog.add(sample);
  if (isFull) sending.next(); // the one that was waiting for its answer is gone
}

static void sendOldest(uint32_t nowMillis) {
  const Sample* sample = backlog.first();
  if (!sample || !sending.isDue(nowMillis)) return;
  Line line(put);
  const uint32_t ofStartup = startup - (uint16_t)((uint16_t)startup - sample->startup);
  writePack(line, *sample, ofStartup, boardClock.when(sample->takenMillis, nowMillis));
  sending.sent(nowMillis);
}

static void sayWho() {
  Line line(put);
  line.text(PSTR("[{\"bn\":\"" BOARD_NAME "/\",\"n\":\"about\",\"vs\":\"serial board, start-up "));
  line.whole(startup);
  line.text(PSTR("; every "));
  line.decimal(backlog.head.intervalMillis, 3);
  line.text(PSTR(" s; "));
  line.whole(backlog.head.count);
  line.text(PSTR(" of "));
  line.whole(BACKLOG_ROOM);
  line.text(PSTR(" messages waiting"));
  if (lastNumber > 0 && !(lastHas & HAS_LIGHT)) line.text(PSTR("; no light sensor answers"));
  if (lastNumber > 0 && !(lastHas & HAS_TEMPERATURE)) line.text(PSTR("; no thermometer answers"));
  line.text(PSTR("\"}]"));
  line.end();
}

static void changeInterval(const Instant& wished, uint32_t nowMillis) {
  uint32_t millis = wished.seconds > LONGEST_INTERVAL / 1000 ? LONGEST_INTERVAL : wished.seconds * 1000 + wished.millis;
  if (millis < SHORTEST_INTERVAL) millis = SHORTEST_INTERVAL;
  backlog.setInterval(millis);
  measureFrom(nowMillis, millis);
}

static void obey(const Request& request, uint32_t nowMillis) {
  switch (request.asked) {
  case Asked::nothing: return;
  case Asked::who: sayWho(); break;
  case Asked::time: boardClock.set(request.instant, nowMillis); break;
  case Asked::every: changeInterval(request.instant, nowMillis); break;
  case Asked::kept: {
    const Sample* sample = backlog.first();
    const uint32_t age = startup - request.startup;
    if (sample && age < 0x10000UL && backlog.forget((uint16_t)request.startup, request.number)) sending.next();
    return;
  }
  }
  sending.hubIsThere();
}

void loop() {
  wdt_reset();
  const uint32_t now = boardMillis();
  while (Serial.available()) {
    const char* line = requestLine.take((char)Serial.read());
    if (line) obey(readRequest(line), now);
  }
  boardClock.carry(now);
  if (!isMeasuring && (int32_t)(now + MEASURING_MILLIS - dueMillis) >= 0) startMeasuring();
  if ((int32_t)(now - dueMillis) >= 0) {
    takeSample(now);
    dueMillis += backlog.head.intervalMillis;
    isMeasuring = false;
  }
  sendOldest(now);
  sleep_mode(); // until the next interrupt: a millisecond, a character, a turn of the cups
}
