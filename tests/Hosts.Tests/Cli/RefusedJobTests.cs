using System.Buffers.Binary;
using System.IO.Compression;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Coldpeel.Hosts.Tests.Cli;

/// <summary>What a customer's mail and a tired evening bring: each is one line that names file, place and mend, and nothing is left behind.</summary>
public sealed class RefusedJobTests
{
    [Theory]
    [InlineData("job", "\"\"", "job.json: job")]
    [InlineData("currency", "\"EURO\"", "job.json: currency|EURO")]
    [InlineData("currency", "\"XQQ\"", "currency|XQQ")]
    [InlineData("due", "\"2027-02-30\"", "job.json: due|2027-02-30")]
    [InlineData("colour", "\"x\"", "the key \"colour\" is not known")]
    [InlineData("items.0.quantity", "0", "job.json: items[0].quantity|0 is less than 1")]
    [InlineData("items.0.quantity", "-3", "job.json: items[0].quantity|-3")]
    [InlineData("items.0.quantity", "1e300", "job.json: items[0].quantity")]
    [InlineData("items.0.material", "\"cotton-jersy\"", "items[0].material|cotton-jersy|cotton-jersey")]
    [InlineData("items.0.colour", "\"blu\"", "items[0].colour|blu")]
    [InlineData("items.0.use", "\"protectiv\"", "items[0].use|protectiv|protective")]
    [InlineData("items.0.placements.0.at", "\"bag frnt\"", "items[0].placements[0]|bag frnt|bag front")]
    [InlineData("items.0.placements.0.design", "\"marc\"", "items[0].placements[0]|marc|mark")]
    [InlineData("items.1.roster", "\"gone.csv\"", "items[1].roster|gone.csv")]
    [InlineData("items.1.quantity", "3", "crew.csv|2 rows|3")]
    [InlineData("designs.0.widthMm", "-60", "designs[0].widthMm|-60")]
    [InlineData("designs.0.file", "\"gone.svg\"", "designs[0].file|gone.svg")]
    [InlineData("designs.0.file", "\"../mark.svg\"", "designs[0].file|../mark.svg|leaves the job's folder")]
    [InlineData("designs.0.file", "\"/etc/hostname\"", "designs[0].file|/etc/hostname|not relative")]
    [InlineData("designs.0.file", "\"..\\\\mark.svg\"", "designs[0].file|backslash")]
    [InlineData("designs.0.page", "2", "mark.svg|page 2")]
    [InlineData("designs.1.lettering.text", "\"{nam}\"", "crew.csv|nam|name")]
    [InlineData("designs.1.lettering.font", "\"No Such Face\"", "name|No Such Face")]
    [InlineData("workshop", "\"gone.json\"", "workshop|gone.json")]
    public async Task A_job_with_one_thing_wrong_is_refused_with_its_place(string path, string value, string words)
    {
        using var job = new SmallJob();
        await Refused(job.Set(path, value), words);
    }

    [Theory]
    [InlineData("job.json", "{ \"job\": \"T-1\",, }", "job.json: line 1, column 16|JSON")]
    [InlineData("job.json", "", "job.json|JSON")]
    [InlineData("job.json", "{ \"job\": \"a\", \"job\": \"b\" }", "\"job\" stands twice")]
    [InlineData("crew.csv", "person\nÅsa\nBo\n", "crew.csv|no column “name”|person")]
    [InlineData("crew.csv", "name\nÅsa\n", "crew.csv|1 row|2")]
    [InlineData("crew.csv", "name\nÅsa,7\nBo\n", "crew.csv|line 2")]
    [InlineData("crew.csv", "", "crew.csv")]
    [InlineData("mark.svg", "<svg xmlns='http://www.w3.org/2000/svg' width='9mm'", "mark.svg|broken")]
    [InlineData("mark.svg", "%PDF-1.7\n", "mark.svg|PDF|ends too early")]
    [InlineData("mark.svg", "just words", "mark.svg|no SVG, PDF, PNG, JPEG")]
    public async Task A_file_of_the_job_that_is_broken_is_refused_by_its_name(string file, string text, string words)
    {
        using var job = new SmallJob();
        await Refused(job.Write(file, text), words);
    }

    [Fact]
    public async Task A_job_that_is_not_there_is_refused()
    {
        using var job = new SmallJob();
        File.Delete(job.At("job", "job.json"));
        await Refused(job, "job/job.json", "no such file");
    }

    [Fact]
    public async Task A_link_that_leads_out_of_the_folder_is_refused()
    {
        using var job = new SmallJob();
        File.Move(job.At("job", "mark.svg"), job.At("mark.svg"));
        File.CreateSymbolicLink(job.At("job", "mark.svg"), job.At("mark.svg"));
        (await job.Make()).Refused("designs[0].file", "mark.svg", "leaves the job's folder by a link");
        Assert.Equal(["mark.svg"], job.Left());
    }

    [Fact]
    public async Task A_broken_workshop_file_is_refused_by_its_own_name()
    {
        using var job = new SmallJob();
        job.Set("workshop", "\"shop.json\"").Write("shop.json", "{ \"presses\": [] }");
        await Refused(job, "shop.json");
    }

    // An SVG is a web page's drawing: it may name files and addresses, and a program that follows them tells strangers what the workshop does.
    [Theory]
    [InlineData("<image href='{0}' width='9' height='9'/>")]
    [InlineData("<style>@import url('{0}');</style>")]
    [InlineData("<rect width='9' height='9' fill='url({0}#a)'/>")]
    [InlineData("<style>@font-face {{ font-family: x; src: url({0}) }}</style><text font-family='x'>a</text>")]
    public async Task An_SVG_never_makes_the_program_call_an_address(string inside)
    {
        using var canary = new TcpListener(IPAddress.Loopback, 0);
        canary.Start();
        var address = $"http://127.0.0.1:{((IPEndPoint)canary.LocalEndpoint).Port}/canary";
        using var job = new SmallJob();
        var drawn = string.Format(null, inside, address);
        job.Write(
            "mark.svg",
            $"<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='40mm' viewBox='0 0 60 40'>{drawn}</svg>"
        );
        await Refused(job, "mark.svg", "outside itself", address[..20]);
        Assert.False(canary.Pending(), "the address was called");
    }

    [Fact]
    public async Task An_SVG_never_brings_in_another_file()
    {
        using var job = new SmallJob();
        File.WriteAllText(job.At("secret.txt"), "canary-5127");
        job.Write(
            "mark.svg",
            $"<!DOCTYPE svg [<!ENTITY a SYSTEM '{job.At("secret.txt")}'>]><svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='40mm'><text y='20'>&a;</text></svg>"
        );
        var ran = await job.Make();
        ran.Refused("mark.svg", "entities");
        Assert.DoesNotContain("canary", ran.Err, StringComparison.Ordinal);
        Assert.Equal(["secret.txt"], job.Left());
    }

    // PNG (W3C, third edition) lets a header of 25 bytes claim 2^31 - 1 pixels a side; unpacked as asked this one would take 14 GB.
    [Fact]
    public async Task A_picture_bomb_is_refused_with_little_memory()
    {
        using var job = new SmallJob();
        var bomb = Bomb(60_000);
        Assert.True(bomb.Length < 8_000);
        job.Set("designs.0.file", "\"bomb.png\"").Write("bomb.png", bomb);
        var ran = await job.Make();
        ran.Refused("bomb.png", "60000");
        Assert.Empty(job.Left());
        Assert.True(ran.PeakBytes < 300_000_000, $"{ran.PeakBytes / 1_000_000} MB");
    }

    [Fact]
    public async Task Out_that_is_a_file_or_lies_in_one_is_refused_and_the_file_stays()
    {
        using var job = new SmallJob();
        File.WriteAllText(job.At("out"), "mine");
        (await job.Make()).Refused("out", "is a file");
        (await CommandLine.Run(job.Home, "make", "job/job.json", "--out", "out/deep/er")).Refused("out", "is a file");
        Assert.Equal(["out"], job.Left());
        Assert.Equal("mine", await File.ReadAllTextAsync(job.At("out"), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Out_where_nobody_may_write_is_refused()
    {
        // The kernel lets nobody make a folder in /proc, not even root.
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Only Linux has /proc.");
        using var job = new SmallJob();
        (await CommandLine.Run(job.Home, "make", "job/job.json", "--out", "/proc/coldpeel-out")).Refused(
            "/proc/coldpeel-out",
            "cannot be written"
        );
        Assert.Empty(job.Left());
    }

    private static async Task Refused(SmallJob job, params string[] words)
    {
        (await job.Make()).Refused([.. words.SelectMany(w => w.Split('|'))]);
        Assert.Empty(job.Left());
    }

    private static byte[] Bomb(int side)
    {
        using var idat = new MemoryStream();
        using (var zip = new ZLibStream(idat, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            zip.Write(new byte[4_000_000]);
        }

        byte[] head = [0, 0, 0, 0, 0, 0, 0, 0, 8, 6, 0, 0, 0];
        BinaryPrimitives.WriteInt32BigEndian(head, side);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), side);
        return
        [
            0x89,
            .. "PNG\r\n\x1a\n"u8,
            .. Chunk("IHDR", head),
            .. Chunk("IDAT", idat.ToArray()),
            .. Chunk("IEND", []),
        ];
    }

    private static byte[] Chunk(string kind, byte[] body)
    {
        byte[] named = [.. Encoding.ASCII.GetBytes(kind), .. body];
        var (length, check) = (new byte[4], new byte[4]);
        BinaryPrimitives.WriteInt32BigEndian(length, body.Length);
        BinaryPrimitives.WriteUInt32BigEndian(check, Crc(named));
        return [.. length, .. named, .. check];
    }

    // CRC-32 of PNG, annex D.
    private static uint Crc(byte[] bytes)
    {
        var crc = uint.MaxValue;
        foreach (var b in bytes)
        {
            crc ^= b;
            for (var k = 0; k < 8; k++)
            {
                crc = (crc & 1) == 0 ? crc >> 1 : 0xEDB88320 ^ (crc >> 1);
            }
        }

        return ~crc;
    }
}
