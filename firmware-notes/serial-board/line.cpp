#include "line.h"
#include "crc16.h"

Line::Line(void (*put)(char)) : sink(put), crc(CRC16_START) {}

void Line::put(char c) {
  crc = crc16Add(crc, (uint8_t)c);
  sink(c);
}

void Line::text(PGM_P flashText) {
  for (char c; (c = (char)pgm_read_byte(flashText)) != 0; flashText++) put(c);
}

void Line::whole(uint32_t number) { decimal(number, 0); }

void Line::decimal(uint32_t scaled, uint8_t decimals) {
  char digits[10];
  uint8_t count = 0;
  do {
    digits[count++] = (char)('0' + scaled % 10);
    scaled /= 10;
  } while (scaled > 0 || count <= decimals);
  while (count > 0) {
    if (count == decimals) put('.');
    put(digits[--count]);
  }
}

void Line::signedSixteenths(int16_t value) {
  if (value < 0) put('-');
  sixteenths(value < 0 ? (uint16_t)-value : (uint16_t)value);
}

// a sixteenth is 0.0625: four decimals are exact
void Line::sixteenths(uint16_t value) { decimal(value * 625UL, 4); }

void Line::millis(uint32_t seconds, uint16_t millis) {
  whole(seconds);
  put('.');
  put((char)('0' + millis / 100));
  put((char)('0' + millis / 10 % 10));
  put((char)('0' + millis % 10));
}

void Line::end() {
  const uint16_t sum = crc;
  sink('#');
  for (int8_t shift = 12; shift >= 0; shift -= 4) {
    const uint8_t digit = (sum >> shift) & 0xF;
    sink((char)(digit < 10 ? '0' + digit : 'A' + digit - 10));
  }
  sink('\r');
  sink('\n');
}
