using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Findings;

/// <summary>Writes findings.json, in the form of docs/schemas/findings.schema.json.</summary>
public static class FindingsFile
{
    private static readonly JsonWriterOptions Form = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>The findings in the order given; lengths in mm, to a micrometre.</summary>
    public static string Write(IReadOnlyList<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, Form))
        {
            json.WriteStartArray();
            foreach (var finding in findings)
            {
                One(json, finding);
            }

            json.WriteEndArray();
        }

        return Encoding.UTF8.GetString(bytes.ToArray()) + "\n";
    }

    private static void One(Utf8JsonWriter json, Finding finding)
    {
        json.WriteStartObject();
        json.WriteString("kind", finding.Kind);
        json.WriteString(
            "severity",
            finding.Severity switch
            {
                Severity.Stop => "stop",
                Severity.Warn => "warn",
                _ => "note",
            }
        );
        if (finding.Design is { } design)
        {
            json.WriteString("design", design);
        }

        if (finding.Item is { } item)
        {
            json.WriteString("item", item);
        }

        if (finding.Count is { } count)
        {
            json.WriteNumber("count", count);
        }

        if (finding.WorstMm is { } worst)
        {
            json.WriteNumber("worstMm", Mm(worst));
        }

        if (finding.LimitMm is { } limit)
        {
            json.WriteNumber("limitMm", Mm(limit));
        }

        json.WriteStartArray("at");
        foreach (var box in finding.At.IsDefault ? [] : finding.At)
        {
            json.WriteStartObject();
            json.WriteNumber("xMm", Mm(box.Left));
            json.WriteNumber("yMm", Mm(box.Top));
            json.WriteNumber("wMm", Mm(box.Width));
            json.WriteNumber("hMm", Mm(box.Height));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("say", finding.Say.English);
        if (finding.Accepted)
        {
            json.WriteBoolean("accepted", true);
        }

        json.WriteEndObject();
    }

    private static double Mm(double mm) => Math.Round(mm, 3, MidpointRounding.AwayFromZero);
}
