#include "read/iso_date.h"

/* reads `digits` digits at *at; -1 when they are not there */
static int
digits_take(struct slice s, size_t *at, size_t digits)
{
    int value = 0;
    if (s.length < *at + digits)
        return -1;
    for (size_t i = 0; i < digits; i++) {
        char c = s.at[*at + i];
        if (c < '0' || c > '9')
            return -1;
        value = value * 10 + (c - '0');
    }
    *at += digits;
    return value;
}

static bool
byte_take(struct slice s, size_t *at, char byte)
{
    if (*at >= s.length || s.at[*at] != byte)
        return false;
    ++*at;
    return true;
}

static int
days_of(int year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return days[month - 1] + (month == 2 && leap);
}

static bool
zone_take(struct slice s, size_t *at)
{
    if (byte_take(s, at, 'Z'))
        return true;
    if (!byte_take(s, at, '+') && !byte_take(s, at, '-'))
        return false;
    int hours = digits_take(s, at, 2);
    if (!byte_take(s, at, ':'))
        return false;
    int minutes = digits_take(s, at, 2);
    return hours >= 0 && hours <= 23 && minutes >= 0 && minutes <= 59;
}

static bool
time_take(struct slice s, size_t *at)
{
    int hour = digits_take(s, at, 2);
    if (hour < 0 || hour > 23 || !byte_take(s, at, ':'))
        return false;
    int minute = digits_take(s, at, 2);
    if (minute < 0 || minute > 59)
        return false;
    if (byte_take(s, at, ':')) {
        int second = digits_take(s, at, 2);
        if (second < 0 || second > 59) /* HTML's times have no leap second */
            return false;
        if (byte_take(s, at, '.')) {
            size_t from = *at;
            while (digits_take(s, at, 1) >= 0)
                continue;
            if (*at == from)
                return false;
        }
    }
    return zone_take(s, at);
}

bool
iso_date_valid(struct slice text)
{
    size_t at = 0;
    int year = digits_take(text, &at, 4);
    if (year < 1 || !byte_take(text, &at, '-'))
        return false;
    int month = digits_take(text, &at, 2);
    if (month < 1 || month > 12 || !byte_take(text, &at, '-'))
        return false;
    int day = digits_take(text, &at, 2);
    if (day < 1 || day > days_of(year, month))
        return false;
    if (at == text.length)
        return true;
    return byte_take(text, &at, 'T') && time_take(text, &at) && at == text.length;
}
