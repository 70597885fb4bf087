// SPDX-License-Identifier: GPL-3.0-or-later
// Linked with simavr (GPL-3.0-or-later), and so under the same licence: see LICENCE.md beside it.
// A light sensor at I2C address 0x23: one order byte starts a measurement, two bytes give its count.
#include "bench.h"
#include <avr_twi.h>

enum { ADDRESS = 0x23 << 1 };

bool light_is_there = true;
double light_count;

static avr_irq_t *to_board;
static bool is_selected, is_measured;
static int place;

static void on_bus(avr_irq_t *irq, uint32_t value, void *unused)
{
	(void)irq;
	(void)unused;
	avr_twi_msg_irq_t bus = { .u.v = value };
	if (bus.u.twi.msg & TWI_COND_STOP)
		is_selected = false;
	if (bus.u.twi.msg & TWI_COND_START) {
		place = 0;
		is_selected = light_is_there && (bus.u.twi.addr & 0xfe) == ADDRESS;
		if (is_selected)
			avr_raise_irq(to_board, avr_twi_irq_msg(TWI_COND_ACK, bus.u.twi.addr, 1));
	}
	if (!is_selected)
		return;
	if (bus.u.twi.msg & TWI_COND_WRITE) {
		is_measured = bus.u.twi.data == 0x20 || bus.u.twi.data == 0x10;
		avr_raise_irq(to_board, avr_twi_irq_msg(TWI_COND_ACK, bus.u.twi.addr, 1));
	}
	if (bus.u.twi.msg & TWI_COND_READ) {
		// nothing measured yet: such a sensor gives zero
		const uint16_t count = !is_measured ? 0 : light_count > 65535 ? 65535 : (uint16_t)light_count;
		avr_raise_irq(to_board, avr_twi_irq_msg(TWI_COND_READ, bus.u.twi.addr, place++ ? count & 0xff : count >> 8));
	}
}

void light_connect(void)
{
	to_board = avr_io_getirq(avr, AVR_IOCTL_TWI_GETIRQ(0), TWI_IRQ_INPUT);
	avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_TWI_GETIRQ(0), TWI_IRQ_OUTPUT), on_bus, NULL);
}
