// CRC-16/IBM-3740: polynomial 0x1021, initial value 0xFFFF, not reflected, no final XOR.
// Fed with "123456789" it gives 0x29B1.
#pragma once
#include <stdint.h>

const uint16_t CRC16_START = 0xFFFF;

inline uint16_t crc16Add(uint16_t crc, uint8_t byte) {
  crc ^= (uint16_t)byte << 8;
  for (uint8_t bit = 0; bit < 8; bit++) crc = crc & 0x8000 ? (uint16_t)(crc << 1) ^ 0x1021 : (uint16_t)(crc << 1);
  return crc;
}

inline uint16_t crc16Of(const void* bytes, uint16_t length) {
  uint16_t crc = CRC16_START;
  for (const uint8_t* at = (const uint8_t*)bytes; length > 0; length--) crc = crc16Add(crc, *at++);
  return crc;
}
