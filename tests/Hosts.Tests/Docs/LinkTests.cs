namespace Coldpeel.Hosts.Tests.Docs;

public sealed class LinkTests
{
    public static TheoryData<string> Pages => [.. Page.All.Select(p => p.Path)];

    [Theory]
    [MemberData(nameof(Pages))]
    public void Every_link_of_a_page_leads_to_something_that_is_there(string path)
    {
        foreach (var link in Page.Of(path).Links.Where(l => !l.Contains("://", StringComparison.Ordinal)))
        {
            var parts = link.Split('#');
            var target = parts[0].Length == 0 ? path : Path.Combine(Path.GetDirectoryName(path)!, parts[0]);
            var full = Path.GetFullPath(Path.Combine(Place.Root, target));
            Assert.True(
                full.StartsWith(Place.Root, StringComparison.Ordinal) && (File.Exists(full) || Directory.Exists(full)),
                $"{path} leads to {link}, which is not there"
            );
            if (parts.Length > 1)
            {
                Assert.Contains(parts[1], Page.Of(Path.GetRelativePath(Place.Root, full)).Headings);
            }
        }
    }

    [Fact]
    public void The_pages_do_lead_on() => Assert.True(Page.All.Sum(p => p.Links.Length) > 10);
}
