using System.Text.Json;
using Coldpeel.Files.Findings;
using Coldpeel.Files.Json;
using Coldpeel.Files.Orders;
using Coldpeel.Files.Quotes;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Files.Tests.Orders;

public sealed class AnswerFilesTests
{
    private static void Keeps(string schema, string json) =>
        Assert.Null(
            SchemaCheck.Of(schema).First(JsonText.Parse(System.Text.Encoding.UTF8.GetBytes(json), schema).Value!)
        );

    [Fact]
    public void Findings_are_written_in_the_form_that_was_agreed()
    {
        var json = FindingsFile.Write([
            new("thin-stroke", Severity.Warn, "“crest”: 2 strokes < 0.35 mm")
            {
                Design = "crest",
                Item = "gilets",
                Count = 2,
                WorstMm = 0.18012,
                LimitMm = 0.35,
                At = [new(1, 2, 4, 6.5)],
            },
            new("protective-wear", Severity.Stop, "no") { Item = "vest", Accepted = true },
        ]);
        Keeps("findings", json);
        using var document = JsonDocument.Parse(json);
        var first = document.RootElement[0];
        Assert.Equal(
            ["kind", "severity", "design", "item", "count", "worstMm", "limitMm", "at", "say"],
            first.EnumerateObject().Select(p => p.Name)
        );
        Assert.Equal(0.18, first.GetProperty("worstMm").GetDouble());
        Assert.Equal(
            "{\"xMm\":1,\"yMm\":2,\"wMm\":3,\"hMm\":4.5}",
            JsonSerializer.Serialize(first.GetProperty("at")[0])
        );
        Assert.Equal(
            ["kind", "severity", "item", "at", "say", "accepted"],
            document.RootElement[1].EnumerateObject().Select(p => p.Name)
        );
        Assert.Contains("“crest”: 2 strokes < 0.35 mm", json, StringComparison.Ordinal);
    }

    [Fact]
    public void No_finding_is_an_empty_list() => Assert.Equal("[]\n", FindingsFile.Write([]));

    [Fact]
    public void A_quote_keeps_its_coins()
    {
        var prices = WorkshopBookReader.Example().Prices;
        var quote = QuoteMaker
            .Make(new("EUR", [new("A3", 297, 420, 2, true)], 31_000, 900, 2_000, [new("tote", 10)], prices))
            .Value!;
        var job = new Job("R-7", "Reed Club", new DateOnly(2027, 5, 14), "EUR", null, [], []);
        var json = QuoteFile.Write(quote, job);
        Keeps("quote", json);
        using var document = JsonDocument.Parse(json);
        var blanks = document
            .RootElement.GetProperty("lines")
            .EnumerateArray()
            .Single(l => l.GetProperty("kind").GetString() == "blanks");
        Assert.Equal("32.00", blanks.GetProperty("amount").GetRawText());
        Assert.Equal("3.2", blanks.GetProperty("unitPrice").GetRawText());
        var sum = document
            .RootElement.GetProperty("lines")
            .EnumerateArray()
            .Sum(l => l.GetProperty("amount").GetDecimal());
        Assert.Equal(sum, document.RootElement.GetProperty("net").GetDecimal());
    }
}
