// SPDX-License-Identifier: GPL-3.0-or-later
// Linked with simavr (GPL-3.0-or-later), and so under the same licence: see LICENCE.md beside it.
// A cup anemometer's reed switch between D2 and GND: closed for half of each turn, bouncing at either edge.
#include "bench.h"
#include <avr_ioport.h>

static avr_irq_t *pin;
static double turns_per_second, bounce_microseconds;
static int bounces, edges_left;
static bool is_closed;

static void set(bool closed)
{
	is_closed = closed;
	avr_raise_irq(pin, closed ? 0 : 1);
}

static avr_cycle_count_t bounce(avr_t *a, avr_cycle_count_t when, void *unused)
{
	(void)unused;
	if (edges_left-- <= 0)
		return 0;
	set(!is_closed);
	return when + avr_usec_to_cycles(a, (uint32_t)bounce_microseconds);
}

static avr_cycle_count_t half_turn(avr_t *a, avr_cycle_count_t when, void *unused)
{
	(void)unused;
	if (turns_per_second <= 0)
		return 0;
	set(!is_closed);
	if (bounces > 0) {
		edges_left = 2 * bounces; // an even number, so that it ends where it was going
		avr_cycle_timer_register_usec(a, (uint32_t)bounce_microseconds, bounce, NULL);
	}
	return when + (avr_cycle_count_t)(a->frequency / (2 * turns_per_second));
}

void cups_connect(void)
{
	pin = avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), IOPORT_IRQ_PIN2);
	cups_turn(turns_per_second, bounces, bounce_microseconds);
}

void cups_turn(double hertz, int each_bounces, double bounce_us)
{
	turns_per_second = hertz;
	bounces = each_bounces;
	bounce_microseconds = bounce_us;
	avr_cycle_timer_cancel(avr, half_turn, NULL);
	avr_cycle_timer_cancel(avr, bounce, NULL);
	set(true); // so that the level is passed on after a reset too
	set(false);
	if (hertz > 0)
		avr_cycle_timer_register(avr, (avr_cycle_count_t)(avr->frequency / (2 * hertz)), half_turn, NULL);
}
