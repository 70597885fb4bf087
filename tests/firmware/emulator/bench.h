// SPDX-License-Identifier: GPL-3.0-or-later
// Linked with simavr (GPL-3.0-or-later), and so under the same licence: see LICENCE.md beside it.
#pragma once
#include <sim_avr.h>
#include <sim_time.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

extern avr_t *avr;
// of all cycles, those the processor slept through
extern uint64_t asleep_cycles;

// The serial line: a pseudo-terminal, and what tells whether a program has it open.
void line_connect(void);
void line_open(const char *link);
void line_close(void);
// Carries bytes both ways and looks who is there; call it about every millisecond of the board's time.
void line_carry(void);
// Bytes the board has said, and how many of them nobody was there to hear.
extern unsigned long line_said, line_unheard;
// The power goes as soon as the board has said this many more line ends; -1 leaves it on.
extern int line_ends_left;
extern int reset_on_open_ms;

void cups_connect(void);
void cups_turn(double hertz, int bounces, double bounce_us);

void light_connect(void);
extern bool light_is_there;
extern double light_count;

void thermometer_connect(void);
void thermometer_reset(void);
extern bool thermometer_is_there;
extern double thermometer_celsius;

void board_reset(void);
// As after a loss of power: memory holds noise, EEPROM what it held.
void board_lose_power(void);
// The program runs in a circle, interrupts go on: only a watchdog helps.
void board_wedge(void);

// Does one order of the tests, and answers on standard output.
void obey(char *order);
extern volatile bool is_over;
extern double speed;
