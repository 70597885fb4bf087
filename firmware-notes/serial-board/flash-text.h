// Text that stays in flash, and a compiler without flash (for tests on a computer).
#pragma once
#ifdef __AVR__
#include <avr/pgmspace.h>
#else
#define PROGMEM
#define PSTR(text) (text)
#define pgm_read_byte(at) (*(at))
typedef const char* PGM_P;
#endif
