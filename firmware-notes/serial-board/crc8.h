// CRC-8 of the 1-Wire bus (polynomial 0x31, reflected); also guards the start-up counter.
#pragma once
#include <stdint.h>

inline uint8_t crc8Of(const uint8_t* bytes, uint8_t length) {
  uint8_t crc = 0;
  while (length-- > 0) {
    crc ^= *bytes++;
    for (uint8_t bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >> 1) ^ 0x8C : crc >> 1;
  }
  return crc;
}
