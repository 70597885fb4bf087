// SPDX-License-Identifier: GPL-3.0-or-later
// Linked with simavr (GPL-3.0-or-later), and so under the same licence: see LICENCE.md beside it.
// A 1-Wire thermometer on D4 with a pull-up: answers a reset, measures, gives its nine bytes of memory.
#include "bench.h"
#include <avr_ioport.h>
#include <string.h>

enum { LINE = 4, PRESENCE_US = 120, ZERO_US = 30, RESET_US = 400, ONE_AT_MOST_US = 30, MEASURING_MS = 740 };
enum state { IDLE, CHOOSING, ORDERED, SENDING };

bool thermometer_is_there = true;
double thermometer_celsius = 20;

static avr_irq_t *pin;
static enum state state;
static uint8_t direction, output, order, order_bits, memory[9];
static int sent_bits;
static bool is_pulled_by_board, is_pulled_by_us;
static avr_cycle_count_t pulled_at, measured_at;
static int16_t measured = 85 * 16; // what such a thermometer holds before it has measured

static uint8_t crc8(const uint8_t *bytes, int length)
{
	uint8_t crc = 0;
	while (length-- > 0) {
		crc ^= *bytes++;
		for (int bit = 0; bit < 8; bit++)
			crc = crc & 1 ? crc >> 1 ^ 0x8c : crc >> 1;
	}
	return crc;
}

static avr_cycle_count_t let_go(avr_t *a, avr_cycle_count_t when, void *unused)
{
	(void)a;
	(void)when;
	(void)unused;
	is_pulled_by_us = false;
	if (!is_pulled_by_board)
		avr_raise_irq(pin, 1);
	return 0;
}

static void pull_for(uint32_t us)
{
	is_pulled_by_us = true;
	avr_raise_irq(pin, 0);
	avr_cycle_timer_register_usec(avr, us, let_go, NULL);
}

static avr_cycle_count_t say_present(avr_t *a, avr_cycle_count_t when, void *unused)
{
	(void)a;
	(void)when;
	(void)unused;
	pull_for(PRESENCE_US);
	return 0;
}

static void fill_memory(void)
{
	if (measured_at && avr->cycle >= measured_at) {
		measured = (int16_t)(thermometer_celsius * 16 + (thermometer_celsius < 0 ? -0.5 : 0.5));
		measured_at = 0;
	}
	const uint8_t bytes[8] = { measured & 0xff, measured >> 8 & 0xff, 0x4b, 0x46, 0x7f, 0xff, 0x0c, 0x10 };
	memcpy(memory, bytes, sizeof bytes);
	memory[8] = crc8(memory, 8);
}

static void on_order(void)
{
	if (state == CHOOSING && order == 0xcc) {
		state = ORDERED;
		return;
	}
	if (state == ORDERED && order == 0x44)
		measured_at = avr->cycle + avr_usec_to_cycles(avr, MEASURING_MS * 1000);
	if (state == ORDERED && order == 0xbe) {
		fill_memory();
		sent_bits = 0;
		state = SENDING;
	} else
		state = IDLE;
}

static void on_fall(void)
{
	pulled_at = avr->cycle;
	if (state != SENDING || sent_bits >= 72)
		return;
	if (!(memory[sent_bits / 8] >> (sent_bits % 8) & 1))
		pull_for(ZERO_US);
	sent_bits++;
}

static void on_rise(void)
{
	const uint32_t us = (uint32_t)((avr->cycle - pulled_at) / (avr->frequency / 1000000));
	avr_raise_irq(pin, !is_pulled_by_us);
	if (us > RESET_US) {
		state = CHOOSING;
		order_bits = 0;
		avr_cycle_timer_register_usec(avr, 30, say_present, NULL);
	} else if (state == CHOOSING || state == ORDERED) {
		order = (uint8_t)(order >> 1 | (us < ONE_AT_MOST_US ? 0x80 : 0));
		if (++order_bits == 8) {
			order_bits = 0;
			on_order();
		}
	}
}

static void on_edge(void)
{
	const bool is_pulled = (direction >> LINE & 1) && !(output >> LINE & 1);
	if (is_pulled == is_pulled_by_board)
		return;
	is_pulled_by_board = is_pulled;
	if (!thermometer_is_there) {
		avr_raise_irq(pin, !is_pulled);
		state = IDLE;
	} else if (is_pulled) {
		avr_raise_irq(pin, 0);
		on_fall();
	} else
		on_rise();
}

static void on_direction(avr_irq_t *irq, uint32_t value, void *unused)
{
	(void)irq;
	(void)unused;
	direction = (uint8_t)value;
	on_edge();
}

static void on_output(avr_irq_t *irq, uint32_t value, void *unused)
{
	(void)irq;
	(void)unused;
	output = (uint8_t)value;
	on_edge();
}

void thermometer_reset(void)
{
	state = IDLE;
	direction = output = 0;
	is_pulled_by_board = is_pulled_by_us = false;
	// down first: a reset clears the pin's register, and a level that does not change is not passed on
	avr_raise_irq(pin, 0);
	avr_raise_irq(pin, 1);
}

void thermometer_connect(void)
{
	pin = avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), IOPORT_IRQ_PIN4);
	avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), IOPORT_IRQ_DIRECTION_ALL), on_direction, NULL);
	avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), IOPORT_IRQ_REG_PORT), on_output, NULL);
	thermometer_reset();
}
