using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Coldpeel.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class Places : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_jobs_Sought",
                table: "jobs");

            migrationBuilder.AddColumn<string>(
                name: "SheetsJson",
                table: "jobs",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Words",
                table: "jobs",
                type: "text",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "artworks",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Hash = table.Column<string>(type: "character(64)", fixedLength: true, maxLength: 64, nullable: false),
                    Name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Bytes = table.Column<long>(type: "bigint", nullable: false),
                    LastMs = table.Column<long>(type: "bigint", nullable: false),
                    Sought = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_artworks", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "artwork_uses",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    JobId = table.Column<int>(type: "integer", nullable: false),
                    ArtworkId = table.Column<int>(type: "integer", nullable: false),
                    Number = table.Column<int>(type: "integer", nullable: false),
                    Design = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    WidthMm = table.Column<double>(type: "double precision", nullable: false),
                    HeightMm = table.Column<double>(type: "double precision", nullable: false),
                    Found = table.Column<int>(type: "integer", nullable: false),
                    Mends = table.Column<int>(type: "integer", nullable: false),
                    Picture = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_artwork_uses", x => x.Id);
                    table.ForeignKey(
                        name: "FK_artwork_uses_artworks_ArtworkId",
                        column: x => x.ArtworkId,
                        principalTable: "artworks",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_artwork_uses_jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_artwork_uses_ArtworkId_Id_JobId",
                table: "artwork_uses",
                columns: new[] { "ArtworkId", "Id", "JobId" });

            migrationBuilder.CreateIndex(
                name: "IX_artwork_uses_JobId",
                table: "artwork_uses",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_artworks_Hash",
                table: "artworks",
                column: "Hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_artworks_LastMs_Id",
                table: "artworks",
                columns: new[] { "LastMs", "Id" });

            WordIndex.MakeThrees(migrationBuilder);
            WordIndex.MakeThrees(migrationBuilder, "jobs");
            WordIndex.MakeThrees(migrationBuilder, "stock");
            WordIndex.MakeThrees(migrationBuilder, "artworks");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            WordIndex.DropThrees(migrationBuilder, "stock");
            WordIndex.DropThrees(migrationBuilder, "jobs");
            migrationBuilder.DropTable(
                name: "artwork_uses");

            migrationBuilder.DropTable(
                name: "artworks");
            migrationBuilder.Sql("DROP FUNCTION coldpeel_threes(text);");

            migrationBuilder.DropColumn(
                name: "SheetsJson",
                table: "jobs");

            migrationBuilder.DropColumn(
                name: "Words",
                table: "jobs");

            migrationBuilder.CreateIndex(
                name: "IX_jobs_Sought",
                table: "jobs",
                column: "Sought");
        }
    }
}
