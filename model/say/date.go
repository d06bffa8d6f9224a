package say

import (
	"fmt"
	"time"
)

// Day says a day of the year: "2 January".
func Day(t time.Time) string { return fmt.Sprintf(In("date", "%d %s"), t.Day(), month(t.Month())) }

// Date says a day with its year: "2 January 2006".
func Date(t time.Time) string { return fmt.Sprintf(In("date", "%s %d"), Day(t), t.Year()) }

// Moment says a time of the day with its day: "15:04 on 2 January".
func Moment(t time.Time) string { return clock(t, Day(t)) }

// Stamp says a time of the day with its day and year: "15:04 on 2 January 2006".
func Stamp(t time.Time) string { return clock(t, Date(t)) }

func clock(t time.Time, day string) string {
	return fmt.Sprintf(In("date", "%s on %s"), t.Format("15:04"), day)
}

func month(m time.Month) string {
	return [...]string{
		T("January"), T("February"), T("March"), T("April"), T("May"), T("June"),
		T("July"), T("August"), T("September"), T("October"), T("November"), T("December"),
	}[m-1]
}
