#include "converter.h"
#include <Arduino.h>

static const uint8_t OWN_REFERENCE = 14;
static const uint32_t OWN_REFERENCE_MILLIVOLT = 1100;

static uint16_t convert() {
  ADCSRA |= _BV(ADSC);
  while (ADCSRA & _BV(ADSC)) {
  }
  return ADC;
}

// switched on for the reading only: it takes as much current as the sleeping processor
static uint16_t sumOf(uint8_t source, uint8_t settleMillis) {
  ADCSRA |= _BV(ADEN);
  ADMUX = _BV(REFS0) | source;
  delay(settleMillis);
  convert(); // the first one after a change of source still holds some of the one before
  uint16_t sum = 0;
  for (uint8_t i = 0; i < 16; i++) sum += convert();
  ADCSRA &= (uint8_t)~_BV(ADEN);
  return sum;
}

uint16_t readInputSum(uint8_t input) { return sumOf(input, 0); }

uint16_t readSupplyMillivolt() {
  const uint32_t sum = sumOf(OWN_REFERENCE, 3);
  return sum == 0 ? 0 : (uint16_t)((OWN_REFERENCE_MILLIVOLT * 16 * 1024 + sum / 2) / sum);
}
