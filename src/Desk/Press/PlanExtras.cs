using System.Text.Json;

namespace Coldpeel.Desk.Press;

/// <summary>What we say beside the agreed keys of a plan: under names of our own, which other readers pass over.</summary>
internal static class PlanExtras
{
    public static void Write(Utf8JsonWriter json, PlannedDay day)
    {
        json.WriteStartObject("x-lateness");
        json.WriteNumber("weightedS", day.Plan.LatenessS);
        json.WriteNumber("boundS", day.Plan.LatenessBoundS);
        json.WriteBoolean("proved", day.Plan.LatenessS <= day.Plan.LatenessBoundS);
        json.WriteBoolean("shortestProved", day.Plan.ShortestOfItsLateness || day.Plan.Proved);
        json.WriteEndObject();
        json.WriteNumber("x-setpointChanges", day.Plan.SetPointChanges);
        json.WriteNumber("x-walks", day.Plan.Walks);
        Orders(json, day.Orders);
        json.WriteNumber("x-tried", day.Plan.Tried);
        if (day.Notes.Count > 0)
        {
            json.WriteStartArray("x-notes");
            foreach (var note in day.Notes)
            {
                json.WriteStringValue(note);
            }

            json.WriteEndArray();
        }

        if (!day.Plan.Breaks.IsEmpty)
        {
            json.WriteStartArray("x-breaks");
            foreach (var pause in day.Plan.Breaks)
            {
                json.WriteStartObject();
                json.WriteNumber("from", pause.From);
                json.WriteNumber("to", pause.To);
                json.WriteNumber("hand", pause.Hand);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        Changes(json, day.Changes);
        Answers(json, day.Answers);
        Sureness(json, day);
    }

    private static void Orders(Utf8JsonWriter json, IReadOnlyList<DoneOrder> orders)
    {
        json.WriteStartArray("x-orders");
        foreach (var order in orders)
        {
            json.WriteStartObject();
            json.WriteString("id", order.Id);
            json.WriteNumber("due", order.Due);
            json.WriteNumber("done", order.Done);
            json.WriteNumber("lateS", order.LateS);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Changes(Utf8JsonWriter json, DayChanges? changes)
    {
        if (changes is null)
        {
            return;
        }

        json.WriteStartObject("x-changes");
        json.WriteNumber("known", changes.Known);
        json.WriteNumber("moved", changes.Moved.Length);
        json.WriteNumber("added", changes.Added);
        json.WriteNumber("dropped", changes.Dropped);
        json.WriteStartArray("tasks");
        foreach (var task in changes.Moved)
        {
            json.WriteStartObject();
            json.WriteString("op", task.Op);
            json.WriteString("ref", task.Ref);
            json.WriteNumber("from", task.From);
            json.WriteNumber("to", task.To);
            if (task.FromPress != task.ToPress)
            {
                json.WriteString("fromPress", task.FromPress);
                json.WriteString("toPress", task.ToPress);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Answers(Utf8JsonWriter json, IReadOnlyList<WhatIf> answers)
    {
        if (answers.Count == 0)
        {
            return;
        }

        json.WriteStartArray("x-whatIf");
        foreach (var answer in answers)
        {
            json.WriteStartObject();
            json.WriteString("asked", answer.Asked);
            json.WriteNumber("makespanS", answer.MakespanS);
            json.WriteNumber("latenessS", answer.LatenessS);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Sureness(Utf8JsonWriter json, PlannedDay day)
    {
        if (day.Times.Count > 0)
        {
            json.WriteStartArray("x-times");
            foreach (var time in day.Times)
            {
                json.WriteStartObject();
                json.WriteString("step", time.Step);
                if (time.Person is not null)
                {
                    json.WriteString("person", time.Person);
                }

                json.WriteNumber("count", time.Count);
                json.WriteNumber("medianS", time.MedianS);
                json.WriteNumber("spreadS", Math.Round(time.SpreadS, 1));
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        if (day.Sureness is { } sure)
        {
            json.WriteStartObject("x-sure");
            json.WriteNumber("simulated", sure.Runs);
            json.WriteNumber("likelyS", sure.LikelyS);
            json.WriteNumber("nineInTenS", sure.SafeS);
            json.WriteStartObject("onTime");
            foreach (var (order, share) in sure.OnTime)
            {
                json.WriteNumber(order, Math.Round(share, 3));
            }

            json.WriteEndObject();
            json.WriteEndObject();
        }
    }
}
