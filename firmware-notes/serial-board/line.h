// One line on the wire: counts its checksum while it is written, so that no line is ever held in memory.
#pragma once
#include "flash-text.h"
#include <stdint.h>

class Line {
public:
  explicit Line(void (*put)(char));
  void text(PGM_P flashText);
  void whole(uint32_t number);
  // `scaled` / 10^decimals, as in 25.0 for 250 and one decimal
  void decimal(uint32_t scaled, uint8_t decimals);
  void signedSixteenths(int16_t sixteenths);
  void sixteenths(uint16_t sixteenths);
  // seconds with three decimals
  void millis(uint32_t seconds, uint16_t millis);
  // writes `#`, the checksum of all before it, CR and LF
  void end();

private:
  void put(char c);
  void (*sink)(char);
  uint16_t crc;
};
