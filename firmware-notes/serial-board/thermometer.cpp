#include "thermometer.h"
#include "crc8.h"
#include "settings.h"
#include <Arduino.h>

static const uint8_t LINE_BIT = _BV(THERMOMETER_BIT);
enum : uint8_t { ALONE_ON_LINE = 0xCC, MEASURE = 0x44, READ_MEMORY = 0xBE };

static void pullDown() { DDRD |= LINE_BIT; }
static void letGo() { DDRD &= (uint8_t)~LINE_BIT; }
static bool isHigh() { return PIND & LINE_BIT; }

// Returns whether a thermometer answers the reset.
static bool resetLine() {
  letGo();
  if (!isHigh()) return false; // no pull-up, or a short
  pullDown();
  delayMicroseconds(480);
  noInterrupts();
  letGo();
  delayMicroseconds(70);
  const bool isAnswered = !isHigh();
  interrupts();
  delayMicroseconds(410);
  return isAnswered;
}

// Writes a bit; a 1 is also how a bit is read. Only the slot itself keeps interrupts waiting.
static bool slot(bool bit) {
  noInterrupts();
  pullDown();
  delayMicroseconds(4);
  if (bit) letGo();
  delayMicroseconds(8);
  const bool seen = isHigh();
  delayMicroseconds(50);
  letGo();
  interrupts();
  delayMicroseconds(5);
  return seen;
}

static uint8_t exchange(uint8_t byte) {
  uint8_t seen = 0;
  for (uint8_t bit = 0; bit < 8; bit++, byte >>= 1) seen = (uint8_t)(seen >> 1 | (slot(byte & 1) ? 0x80 : 0));
  return seen;
}

void beginThermometer() {
  PORTD &= (uint8_t)~LINE_BIT;
  letGo();
}

void startThermometer() {
  if (!resetLine()) return;
  exchange(ALONE_ON_LINE);
  exchange(MEASURE);
}

bool readThermometer(uint16_t& sixteenths) {
  if (!resetLine()) return false;
  exchange(ALONE_ON_LINE);
  exchange(READ_MEMORY);
  uint8_t memory[9];
  for (uint8_t i = 0; i < sizeof memory; i++) memory[i] = exchange(0xFF);
  // a line held high reads as 0xFF throughout, held low as 0: the second would pass the checksum
  if (crc8Of(memory, 8) != memory[8] || (memory[4] & 0x1F) != 0x1F) return false;
  sixteenths = (uint16_t)(memory[0] | memory[1] << 8);
  return true;
}
