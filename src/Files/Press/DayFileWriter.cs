using System.Text.Encodings.Web;
using System.Text.Json;
using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Files.Press;

/// <summary>Writes the text of a day file.</summary>
internal static class DayFileWriter
{
    /// <summary>Names may hold any letter of any script; the file is never put into a web page as it is.</summary>
    public static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static string Write(DayProblem day, ulong seed)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Options))
        {
            json.WriteStartObject();
            json.WriteNumber("format", 1);
            json.WriteString("name", day.Name);
            json.WriteNumber("seed", seed);
            json.WriteNumber("now", day.Now);
            json.WriteNumber("heatCPerMin", day.HeatCPerMin);
            json.WriteNumber("coolCPerMin", day.CoolCPerMin);
            json.WriteNumber("hands", day.Hands);
            json.WriteNumber("rackPlaces", day.RackPlaces);
            Each(json, "presses", day.Presses, Press);
            Each(json, "sheets", day.Sheets, Sheet);
            Each(json, "orders", day.Orders, Order);
            Each(json, "placements", day.Placements, Placement);
            Each(json, "fixed", day.Fixed, Begun);
            DayWishesFile.Write(json, day.Wishes);
            json.WriteEndObject();
        }

        return System.Text.Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    internal static void Each<T>(Utf8JsonWriter json, string key, IEnumerable<T> all, Action<Utf8JsonWriter, T> write)
    {
        json.WriteStartArray(key);
        foreach (var one in all)
        {
            json.WriteStartObject();
            write(json, one);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Press(Utf8JsonWriter json, DayPress p)
    {
        json.WriteString("id", p.Id);
        Numbers(json, ("plateW", p.PlateW), ("plateH", p.PlateH), ("setpointC", p.SetpointC), ("freeAt", p.FreeAt));
    }

    private static void Sheet(Utf8JsonWriter json, DaySheet s)
    {
        json.WriteString("id", s.Id);
        Numbers(json, ("availableAt", s.AvailableAt), ("w", s.W), ("h", s.H), ("tempC", s.TempC));
        Numbers(json, ("load", s.Load), ("press", s.Press), ("peel", s.Peel), ("trim", s.Trim));
    }

    private static void Order(Utf8JsonWriter json, DayOrder o)
    {
        json.WriteString("id", o.Id);
        Numbers(json, ("due", o.Due), ("weight", o.Weight));
    }

    private static void Placement(Utf8JsonWriter json, DayPlacement p)
    {
        json.WriteString("id", p.Id);
        json.WriteString("item", p.Item);
        json.WriteString("order", p.Order);
        Optional(json, "sheet", p.Sheet);
        Optional(json, "after", p.After);
        Numbers(json, ("w", p.W), ("h", p.H), ("tempC", p.TempC), ("load", p.Load), ("press", p.Press));
        Numbers(json, ("lift", p.Lift), ("cool", p.Cool), ("peel", p.Peel), ("finishLoad", p.FinishLoad));
        Numbers(json, ("finishPress", p.FinishPress), ("unload", p.Unload), ("inspect", p.Inspect));
    }

    private static void Begun(Utf8JsonWriter json, DayFixed f)
    {
        json.WriteString("op", f.Op);
        json.WriteString("ref", f.Ref);
        Optional(json, "press", f.Press);
        json.WriteNumber("start", f.Start);
    }

    private static void Optional(Utf8JsonWriter json, string key, string? value)
    {
        if (value is not null)
        {
            json.WriteString(key, value);
        }
    }

    private static void Numbers(Utf8JsonWriter json, params (string Key, int Value)[] all)
    {
        foreach (var (key, value) in all)
        {
            json.WriteNumber(key, value);
        }
    }
}
