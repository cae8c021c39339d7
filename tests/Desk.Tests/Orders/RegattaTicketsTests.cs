using System.Globalization;
using System.Text.RegularExpressions;
using ZXing;
using ZXing.Common;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>tickets.pdf of the demo as poppler reads it, against the rosters, sheets.json and the recipes; its codes as ZXing.Net, an independent reader, reads them.</summary>
[Collection(nameof(Regatta))]
[Trait("Speed", "slow")]
public sealed partial class RegattaTicketsTests(MadeRegatta regatta)
{
    // In the job's order; the second word is the design on which the roster stands, where there is one.
    private static readonly (string Item, string? Roster, string[] Designs, int Count)[] Groups =
    [
        ("gilet", null, ["crest", "crew"], 12),
        ("shirt", "crew.csv", ["crest", "name"], 18),
        ("tote", null, ["eight"], 16),
        ("pennant", "stages.csv", ["stage"], 8),
        ("fob", null, ["mark"], 1),
        ("plaque", "boats.csv", ["boat"], 5),
    ];

    [Fact]
    public async Task Every_name_and_number_stands_once_on_the_ticket_of_its_group_beside_the_labels_of_its_pieces()
    {
        var label = regatta
            .Layout.Sheets.SelectMany(s => s.Placed)
            .ToDictionary(p => (p.Piece.Id, p.Copy), p => p.Label);
        var tickets = await Tickets();
        Assert.Equal(Groups.Select(g => g.Item), tickets.Select(t => t.Item));
        var crests = 0;
        foreach (var ((item, roster, designs, count), (_, text)) in Groups.Zip(tickets))
        {
            var who = roster is null ? [.. Enumerable.Repeat("", count)] : People(roster);
            Assert.Equal(count, who.Length);
            var rows = Row().Matches(text);
            Assert.Equal(
                who.Select((name, n) => (n + 1, name)),
                rows.Select(r => (Number(r.Groups["number"].Value), r.Groups["who"].Value.Trim())).OrderBy(r => r.Item1)
            );
            foreach (var row in rows.Cast<Match>())
            {
                var n = Number(row.Groups["number"].Value);
                var wanted = designs.Select(d =>
                    label[
                        regatta.Layout.Pieces.ContainsKey($"{d}/{item}/{n}") ? ($"{d}/{item}/{n}", 0) : (d, Copy(d, n))
                    ]
                );
                Assert.Equal(wanted, row.Groups["labels"].Value.Split(" · "));
            }

            crests += designs.Contains("crest") ? count : 0;
            // Copies of one design count on from group to group.
            int Copy(string design, int n) => (design == "crest" ? crests : 0) + n - 1;
        }

        Assert.Equal(regatta.Layout.Pieces["crest"].Quantity, crests);
    }

    [Fact]
    public async Task Settings_are_those_of_the_recipe_of_each_material()
    {
        foreach (var (item, text) in await Tickets())
        {
            var (celsius, seconds, cool, finish) = MadeRegatta.Recipes[item];
            Assert.Equal(("150", "120"), Figures(text, "Bond"));
            Assert.Equal(($"{celsius}", $"{seconds}"), Figures(text, "Press"));
            Assert.Equal(("–", $"{cool}"), Figures(text, "Cool"));
            Assert.Equal(($"{celsius}", $"{finish}"), Figures(text, "Finish press"));
        }
    }

    [Fact]
    public async Task A_caution_does_not_name_again_what_the_ticket_is_about()
    {
        foreach (var (item, text) in await Tickets())
        {
            Assert.DoesNotContain($"({item})", text, StringComparison.Ordinal);
            Assert.Single(Regex.Matches(text, "Hot plate:"));
        }
    }

    [Fact]
    public async Task The_code_of_every_ticket_opens_that_ticket()
    {
        var pages = (await Pages()).ToArray();
        for (var n = 1; n <= Groups.Length; n++)
        {
            var first = Array.FindIndex(pages, p => p.Contains($"\nTICKET {n} ·", StringComparison.Ordinal)) + 1;
            // The address of the app in the example workshop file, the job and the ticket's number.
            Assert.Equal($"http://localhost:5080/tickets/AR-2027-014/{n}", await Code(first));
        }
    }

    private async Task<string?> Code(int page)
    {
        var root = Path.Combine(Place.NewFolder(), "ticket");
        string[] one = ["-f", $"{page}", "-l", $"{page}", "-singlefile"];
        await Outside.Says("pdftoppm", ["-r", "150", "-gray", .. one, regatta.PathOf("tickets.pdf"), root]);
        var graymap = await File.ReadAllBytesAsync(root + ".pgm", TestContext.Current.CancellationToken);
        var head = GraymapHead().Match(System.Text.Encoding.Latin1.GetString(graymap, 0, 40));
        var (wide, high) = (Number(head.Groups[1].Value), Number(head.Groups[2].Value));
        var source = new PlanarYUVLuminanceSource(graymap[head.Length..], wide, high, 0, 0, wide, high, false);
        var hints = new Dictionary<DecodeHintType, object> { [DecodeHintType.TRY_HARDER] = true };
        return new ZXing.QrCode.QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(source)), hints)?.Text;
    }

    // The pages of a ticket carry it in their foot: "Ticket 2 · AR-2027-014 · shirt".
    private async Task<(string Item, string Text)[]> Tickets() =>
        [
            .. (await Pages())
                .Select(p => (Foot: Foot().Match(p), Text: p))
                .GroupBy(p => (Number(p.Foot.Groups[1].Value), p.Foot.Groups[2].Value), p => p.Text)
                .OrderBy(g => g.Key)
                .Select(g => (g.Key.Value, string.Join('\n', g))),
        ];

    private async Task<IEnumerable<string>> Pages() =>
        (await Outside.Says("pdftotext", "-raw", regatta.PathOf("tickets.pdf"), "-"))
            .Split('\f')
            .Where(p => p.Trim().Length > 0);

    // The demo's rosters have no quotes: the columns that the job prints are joined as they stand in the lettering's lines.
    private static string[] People(string roster) =>
        [
            .. File.ReadAllLines(MadeRegatta.Demo(roster))
                .Skip(1)
                .Where(l => l.Length > 0)
                .Select(l => l.Split(','))
                .Select(c => roster == "boats.csv" ? $"{c[0]} {c[1]}" : c[0]),
        ];

    private static (string C, string S) Figures(string text, string step)
    {
        var found = Regex.Match(text, $@"^\d+ {step}\s+(\d+|–)\s+(\d+|–)\s", RegexOptions.Multiline);
        Assert.True(found.Success, $"no figures for {step}");
        return (found.Groups[1].Value, found.Groups[2].Value);
    }

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^Ticket (\d+) · AR-2027-014 · (\w+) page \d+ of \d+", RegexOptions.Multiline)]
    private static partial Regex Foot();

    [GeneratedRegex(@"^(?<number>\d+)(?<who>(?: .*)?)\s+pieces (?<labels>\S+(?: · \S+)*)", RegexOptions.Multiline)]
    private static partial Regex Row();

    [GeneratedRegex(@"^P5\s(\d+)\s(\d+)\s255\s")]
    private static partial Regex GraymapHead();
}
