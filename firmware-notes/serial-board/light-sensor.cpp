#include "light-sensor.h"
#include "settings.h"
#include <Arduino.h>
#include <util/twi.h>

// Written on the registers: the core's library would take a tenth of the memory for its buffers. Each wait has an
// end, so that a sensor that holds the line down cannot hold up the board.
static const uint8_t MEASURE_ONCE_FINE = 0x20;

static bool settled(uint8_t control, uint8_t wanted, uint8_t alsoGood) {
  TWCR = control | _BV(TWINT) | _BV(TWEN);
  for (uint16_t tries = 1000; tries > 0; tries--) {
    delayMicroseconds(1);
    if ((TWCR & _BV(TWINT)) && (TW_STATUS == wanted || TW_STATUS == alsoGood)) return true;
  }
  return false;
}

static bool settled(uint8_t control, uint8_t wanted) { return settled(control, wanted, wanted); }

static void stop() {
  TWCR = _BV(TWINT) | _BV(TWEN) | _BV(TWSTO);
  for (uint16_t tries = 2000; (TWCR & _BV(TWSTO)) && tries > 0; tries--) delayMicroseconds(1);
  TWCR = 0; // lets go of the lines, however they stand
}

static bool address(uint8_t direction) {
  if (!settled(_BV(TWSTA), TW_START)) return false;
  TWDR = (uint8_t)(LIGHT_ADDRESS << 1 | direction);
  if (direction == TW_READ) return settled(0, TW_MR_SLA_ACK);
  // the chip says the first of the two; the emulator of the tests the second
  return settled(0, TW_MT_SLA_ACK, TW_MT_DATA_ACK);
}

void beginLight() {
  // the pull-ups on the sensor's side do the work; these keep the lines quiet without a sensor
  pinMode(SDA, INPUT_PULLUP);
  pinMode(SCL, INPUT_PULLUP);
  TWBR = (F_CPU / 100000UL - 16) / 2;
}

void startLight() {
  if (address(TW_WRITE)) {
    TWDR = MEASURE_ONCE_FINE;
    settled(0, TW_MT_DATA_ACK);
  }
  stop();
}

bool readLight(uint16_t& count) {
  bool isRead = address(TW_READ) && settled(_BV(TWEA), TW_MR_DATA_ACK);
  if (isRead) {
    count = (uint16_t)(TWDR << 8);
    isRead = settled(0, TW_MR_DATA_NACK);
    count |= TWDR;
  }
  stop();
  return isRead;
}
