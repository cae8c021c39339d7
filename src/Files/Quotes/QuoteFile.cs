using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Files.Quotes;

/// <summary>Writes quote.json, in the form of docs/schemas/quote.schema.json.</summary>
public static class QuoteFile
{
    private static readonly JsonWriterOptions Form = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>The quote of a job; amounts with the digits of the currency, all exact decimals.</summary>
    public static string Write(Quote quote, Job job)
    {
        ArgumentNullException.ThrowIfNull(quote);
        ArgumentNullException.ThrowIfNull(job);
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, Form))
        {
            json.WriteStartObject();
            json.WriteString("job", job.Name);
            json.WriteString("customer", job.Customer);
            json.WriteString("due", job.Due.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
            json.WriteString("currency", quote.Total.Currency);
            json.WriteStartArray("lines");
            foreach (var line in quote.Lines)
            {
                Line(json, line);
            }

            json.WriteEndArray();
            Amount(json, "net", quote.Net);
            json.WriteNumber("taxPercent", quote.TaxPercent);
            Amount(json, "tax", quote.Tax);
            Amount(json, "total", quote.Total);
            json.WriteString("rounding", quote.Rounding);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.ToArray()) + "\n";
    }

    private static void Line(Utf8JsonWriter json, QuoteLine line)
    {
        json.WriteStartObject();
        json.WriteString("kind", line.Kind);
        json.WriteString("what", line.What.English);
        json.WriteNumber("quantity", line.Quantity);
        json.WriteString("unit", line.Unit);
        json.WriteNumber("unitPrice", line.UnitPrice.Amount);
        Amount(json, "amount", line.Amount);
        json.WriteString("explain", line.Explain.English);
        json.WriteEndObject();
    }

    // The digits are written as they stand: 12.50, not 12.5.
    private static void Amount(Utf8JsonWriter json, string name, Money money)
    {
        json.WritePropertyName(name);
        json.WriteRawValue(
            money.Amount.ToString("F" + (Currencies.MinorUnits(money.Currency) ?? 2), CultureInfo.InvariantCulture)
        );
    }
}
